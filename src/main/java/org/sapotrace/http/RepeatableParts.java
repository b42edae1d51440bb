package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import io.vertx.core.http.HttpServerRequest;
import jakarta.enterprise.context.RequestScoped;
import jakarta.ws.rs.WebApplicationException;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/*
 * What RepeatGuard does for a request that is one transaction, this does for each part of a request
 * that is many. The row of a part is inserted first and committed last, together with what the part
 * recorded: a twin waits for it, and then finds its answer. So parts are recorded once, whoever is
 * first, however many send them, and wherever one of them breaks off.
 */
/** Carries out a request part by part, each once, however often it is sent (Idempotency-Key). */
@RequestScoped
public class RepeatableParts {

  /** How long one part may take, in s: it may be a whole request. */
  private static final int LONGEST_SECONDS = 1800;

  private final CurrentVertxRequest exchange;
  private final CurrentCaller caller;
  private final RememberedParts parts;
  private final ObjectMapper json;

  RepeatableParts(
      CurrentVertxRequest exchange,
      CurrentCaller caller,
      RememberedParts parts,
      ObjectMapper json) {
    this.exchange = exchange;
    this.caller = caller;
    this.parts = parts;
    this.json = json;
  }

  /**
   * The request as it may be repeated; null for one without a key.
   *
   * @throws RuntimeException that becomes a 400 where what was given is no key
   */
  RememberedParts.@Nullable Repeated repeated() {
    HttpServerRequest request = exchange.getCurrent().request();
    String key = IdempotencyKey.of(request.headers().getAll(IdempotencyKey.HEADER));
    return key == null
        ? null
        : new RememberedParts.Repeated(
            caller.get().orElseThrow().id(), request.method() + " " + request.uri(), key);
  }

  /**
   * Whether the request may be sent again as it is, and then goes on where it was interrupted.
   *
   * @throws RuntimeException that becomes a 400 where it has a key that is none
   */
  public boolean isRepeatable() {
    return repeated() != null;
  }

  /**
   * To be thrown where a request cannot be carried out further.
   *
   * @param failure why
   * @param soFar what was carried out, as a sentence for a person
   */
  public RuntimeException interrupted(Exception failure, String soFar) {
    Problem problem;
    if (failure instanceof WebApplicationException answered) {
      problem = BareStatus.problem(answered.getResponse().getStatus());
    } else {
      problem =
          Optional.ofNullable(Diagnosis.ofReading(failure))
              .or(() -> Diagnosis.of(failure))
              .orElseGet(() -> Diagnosis.defect(failure, exchange.getCurrent()));
    }
    // That it came with another body before needs no more said: nothing goes on.
    boolean other = problem.status() == ProblemType.INVALID_INPUT.status();
    return (other ? problem : problem.saying(soFar)).asException();
  }

  /**
   * Carries out a part in a transaction of its own, or answers what it answered before. What throws
   * records nothing and is not remembered.
   *
   * @param part counting from 1
   * @param fingerprint of the body up to the end of the part, which must be the same in a repeat
   * @param type of the answer, which JSON can hold
   */
  public <T> T once(int part, String fingerprint, Class<T> type, Supplier<T> work) {
    RememberedParts.Repeated repeated = repeated();
    return QuarkusTransaction.requiringNew()
        .timeout(LONGEST_SECONDS)
        .call(
            () ->
                repeated == null
                    ? work.get()
                    : once(new RememberedParts.Part(repeated, part, fingerprint), type, work));
  }

  private <T> T once(RememberedParts.Part part, Class<T> type, Supplier<T> work)
      throws JsonProcessingException {
    String known = parts.claim(part);
    if (known != null) {
      return json.readValue(known, type);
    }
    T answer = work.get();
    parts.remember(part, json.writeValueAsString(answer));
    return answer;
  }
}
