package org.sapotrace.http;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.ws.rs.core.Response;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Carries out what is asked by another way than HTTP: once, and with the same refusals. */
@ApplicationScoped
public class Errands {

  private final RememberedAnswers answers;
  private final ObjectMapper json;

  Errands(RememberedAnswers answers, ObjectMapper json) {
    this.answers = answers;
    this.json = json;
  }

  /**
   * What is asked.
   *
   * @param caller who asks
   * @param way by which it came, and what it is
   * @param key by which the caller tells it from all else that is asked that way
   * @param body what a repeat has to bring again
   * @param reused what to say where the key came with another body before
   */
  public record Errand(String caller, String way, String key, String body, String reused) {}

  /**
   * Records, and remembers what is answered in the same transaction; answers a repeat within a day
   * as the first time.
   *
   * @return what is answered, in JSON
   * @throws RuntimeException that {@link #problem} explains
   */
  public String once(Errand errand, Supplier<?> recording) {
    RememberedAnswers.Request asked =
        new RememberedAnswers.Request(
            errand.caller(),
            errand.way(),
            errand.key(),
            SentBody.fingerprint(errand.body().getBytes(UTF_8)),
            errand.reused());
    return QuarkusTransaction.requiringNew()
        .timeout(RepeatGuard.LONGEST_SECONDS)
        .call(() -> once(asked, recording));
  }

  private String once(RememberedAnswers.Request asked, Supplier<?> recording)
      throws JsonProcessingException {
    RememberedAnswers.Answer known = answers.claim(asked);
    if (known != null) {
      return known.body();
    }
    String answer = json.writeValueAsString(recording.get());
    int created = Response.Status.CREATED.getStatusCode();
    answers.remember(asked, new RememberedAnswers.Answer(created, null, answer));
    return answer;
  }

  /**
   * Why something was not carried out.
   *
   * @param asked what it was, for the log where the service itself is at fault
   * @return null where time heals it, and it should be asked again
   */
  public @Nullable Problem problem(RuntimeException failure, String asked) {
    Problem problem = Diagnosis.of(failure).orElseGet(() -> Diagnosis.defect(failure, asked));
    return problem.status() == ProblemType.UNAVAILABLE.status() ? null : problem;
  }
}
