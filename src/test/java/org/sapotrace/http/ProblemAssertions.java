package org.sapotrace.http;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.regex.Pattern;
import org.sapotrace.testing.RawHttp;

/** What every answer that is an error has in common. */
final class ProblemAssertions {

  private static final Pattern INNER_LIFE =
      Pattern.compile(
          "(?i)exception|stacktrace|\\b(java|javax|jakarta|org|com|io|net)\\.[a-z]|\\.java|jackson"
              + "|hibernate|quarkus|vert\\.x|sql|<html|secret");

  private ProblemAssertions() {}

  static JsonNode assertProblem(RawHttp.Answer answer, int status) {
    assertThat(answer.status()).as("status of %s", answer).isEqualTo(status);
    assertThat(answer.header("Content-Type"))
        .as("%s", answer)
        .isEqualTo("application/problem+json");
    assertThat(answer.header("X-Content-Type-Options")).isEqualTo("nosniff");
    assertThat(answer.header("Cache-Control")).isEqualTo("no-store");
    JsonNode problem = parse(answer.body());
    assertThat(problem.path("type").asText()).matches("/problems/[a-z-]+|about:blank");
    assertThat(problem.path("title").asText()).isNotBlank();
    assertThat(problem.path("status").asInt()).isEqualTo(status);
    assertThat(problem.path("detail").asText()).isNotBlank();
    assertThat(problem.path("instance").asText()).isNotBlank();
    assertThat(INNER_LIFE.matcher(told(problem)).find()).as("inner life in %s", problem).isFalse();
    for (JsonNode error : problem.path("errors")) {
      assertThat(error.path("detail").asText()).isNotBlank();
      assertThat(error.path("pointer").asText()).matches("#(/.*)?");
    }
    return problem;
  }

  static List<String> pointers(JsonNode problem) {
    return problem.path("errors").findValuesAsText("pointer");
  }

  /** All but the path, which is the caller's own. */
  private static String told(JsonNode problem) {
    ObjectNode told = problem.deepCopy();
    told.remove("instance");
    return told.toString();
  }

  private static JsonNode parse(String body) {
    try {
      return new ObjectMapper().readTree(body);
    } catch (JsonProcessingException broken) {
      throw new AssertionError("not JSON: " + body, broken);
    }
  }
}
