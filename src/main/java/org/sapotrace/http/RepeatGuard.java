package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.vertx.core.http.HttpServerRequest;
import jakarta.annotation.Priority;
import jakarta.interceptor.AroundInvoke;
import jakarta.interceptor.Interceptor;
import jakarta.interceptor.InvocationContext;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.Objects;

/*
 * The row of a key is inserted first and committed last, together with what the request recorded. A
 * twin that comes meanwhile waits for that row: it finds the answer if the first committed, and
 * takes its place if the first failed. So there is no moment at which an effect is known without
 * its answer. A refusal records nothing and is not remembered: the repeat is judged afresh.
 */
/** Answers a repeat of a request that recorded as the first time (Idempotency-Key). */
@RecordsOnce
@Interceptor
@Priority(Interceptor.Priority.APPLICATION)
final class RepeatGuard {

  /** As long as the longest of what it stands around, a restatement of many results. */
  static final int LONGEST_SECONDS = 1800;

  private static final String REUSED =
      "This Idempotency-Key came with another body before, so nothing was done: take a new key for a"
          + " new request.";

  private final HttpServerRequest request;
  private final CurrentCaller caller;
  private final SentBody sent;
  private final RememberedAnswers answers;
  private final ObjectMapper json;

  RepeatGuard(
      HttpServerRequest request,
      CurrentCaller caller,
      SentBody sent,
      RememberedAnswers answers,
      ObjectMapper json) {
    this.request = request;
    this.caller = caller;
    this.sent = sent;
    this.answers = answers;
    this.json = json;
  }

  @AroundInvoke
  Object once(InvocationContext recording) throws Exception {
    String key = IdempotencyKey.of(request.headers().getAll(IdempotencyKey.HEADER));
    if (key == null) {
      return recording.proceed();
    }
    RememberedAnswers.Request asked =
        new RememberedAnswers.Request(
            caller.get().orElseThrow().id(),
            request.method() + " " + request.uri(),
            key,
            sent.fingerprint(),
            REUSED);
    return QuarkusTransaction.requiringNew()
        .timeout(LONGEST_SECONDS)
        .call(() -> once(asked, recording));
  }

  private Response once(RememberedAnswers.Request asked, InvocationContext recording)
      throws Exception {
    RememberedAnswers.Answer known = answers.claim(asked);
    if (known != null) {
      return known.toResponse();
    }
    Response first = (Response) recording.proceed();
    RememberedAnswers.Answer answer = remembered(first);
    answers.remember(asked, answer);
    return first.getEntity() instanceof ShownOnce ? first : answer.toResponse();
  }

  private RememberedAnswers.Answer remembered(Response answer) throws JsonProcessingException {
    URI location = answer.getLocation();
    Object body = Objects.requireNonNull(answer.getEntity());
    return new RememberedAnswers.Answer(
        answer.getStatus(),
        location == null ? null : location.toString(),
        json.writeValueAsString(body instanceof ShownOnce once ? once.withoutSecret() : body));
  }
}
