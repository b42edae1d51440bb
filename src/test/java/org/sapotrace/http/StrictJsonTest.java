package org.sapotrace.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.http.ProblemAssertions.assertProblem;
import static org.sapotrace.http.ProblemAssertions.pointers;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.HostileInput;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RawHttp;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class StrictJsonTest extends ProbeTest {

  private static final long SEED = 20260304L;

  @Test
  void takesAValidBodyAndWritesItBack() throws IOException {
    RawHttp.Answer answer = post(but("09:20:00Z", "10:20:00.1234567+01:00"));

    assertThat(answer.status()).isEqualTo(200);
    JsonNode body = new ObjectMapper().readTree(answer.body());
    assertThat(body.path("finish").asText()).isEqualTo("high-gloss");
    // To the microsecond, in UTC.
    assertThat(body.path("at").asText()).isEqualTo("2026-03-04T09:20:00.123456Z");
    assertThat(body.path("values").toString()).isEqualTo("[1.0,2.5]");
  }

  static Stream<String> unreadable() {
    return Stream.of(
        "",
        "null",
        "{",
        VALID.substring(0, 60),
        VALID + "{}",
        VALID + "x",
        but("[1, 2.5]", "[NaN]"),
        but("[1, 2.5]", "[" + "1".repeat(5000) + "]"),
        but("\"values\": [1, 2.5]", "\"surplus\": " + "[".repeat(5000) + "]".repeat(5000)),
        "[".repeat(5000) + "]".repeat(5000));
  }

  @ParameterizedTest
  @MethodSource("unreadable")
  void answers400ToWhatIsNotJson(String body) {
    // A body that is one deep list is refused for not being an object before its depth is met.
    assertProblem(post(body), body.startsWith("[") ? 422 : 400);
  }

  @Test
  void answers400ToAFieldGivenTwice() {
    JsonNode problem =
        assertProblem(post(but("\"sizeMl\": 3", "\"sizeMl\": 3, \"sizeMl\": 4")), 400);

    assertThat(pointers(problem)).containsExactly("#/items/1/sizeMl");
  }

  @Test
  void answers400ToAnUnknownFieldAndNamesTheKnownOnes() {
    JsonNode problem = assertProblem(post(but("\"sizeMl\": 3", "\"size ML/~\": 3")), 400);

    // RFC 6901, sections 3 and 6: ~0, ~1 and percent-encoding.
    assertThat(pointers(problem)).containsExactly("#/items/1/size%20ML~1~0");
    assertThat(problem.path("detail").asText()).contains("otherMl, sizeMl");
  }

  @ParameterizedTest
  @ValueSource(strings = {"\"\\u0000\"", "\"a\\ud800b\"", "\"\\udc00\\ud800\""})
  void answers400ToTextThatCannotBeStored(String text) {
    JsonNode problem = assertProblem(post(but("\"a\"", text)), 400);

    assertThat(pointers(problem)).containsExactly("#/name");
  }

  @Test
  void answers400ToTextThatIsNotUtf8() {
    byte[] body = VALID.getBytes(StandardCharsets.UTF_8);
    body[VALID.indexOf("two")] = (byte) 0xFF;

    assertProblem(
        http().request("POST", "/probe/bodies", body, true, "Content-Type: application/json"), 400);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          "a"                 | 1                            | #/name
          "a"                 | true                         | #/name
          "a"                 | ""                           | #/name
          "a"                 | " a"                         | #/name
          "a"                 | "aaaaaaaaaaaaaaaaaaaaa"      | #/name
          "a"                 | "a\\u202eb"                  | #/name
          "a"                 | "a\\nb"                      | #/name
          "a"                 | null                         | #/name
          "two\\nlines"       | "\\u0007"                    | #/notes
          "high-gloss"        | "HIGH_GLOSS"                 | #/finish
          "high-gloss"        | ""                           | #/finish
          "high-gloss"        | 1                            | #/finish
          "2026-03-04T09:20:00Z" | 1                         | #/at
          "2026-03-04T09:20:00Z" | "2026-03-04T09:20:00"     | #/at
          "2026-03-04T09:20:00Z" | "2026-03-04"              | #/at
          "2026-03-04T09:20:00Z" | "+12026-03-04T09:20:00Z"  | #/at
          "2026-03-04T09:20:00Z" | "9999-12-31T23:59:59-18:00" | #/at
          "2026-03-04",       | "2026-02-30",                | #/on
          "2026-03-04",       | [2026,3,4],                  | #/on
          "0190163d-8694-739b-aea5-966c26f8ad90" | ""        | #/id
          "0190163d-8694-739b-aea5-966c26f8ad90" | "x"       | #/id
          "exact": true       | "exact": "true"              | #/exact
          "exact": true       | "exact": 1                   | #/exact
          "count": 3          | "count": 3.0                 | #/count
          "count": 3          | "count": "3"                 | #/count
          "count": 3          | "count": 99999999999         | #/count
          "count": 3          | "count": 10                  | #/count
          "fraction": 0.5     | "fraction": 1.5              | #/share
          "fraction": 0.5     | "fraction": null             | #/share/fraction
          "fraction": 0.5     | "fraction": 1e999            | #/share/fraction
          "sizeMl": 3         | "sizeMl": "3"                | #/items/1/sizeMl
          "sizeMl": 3         | "sizeMl": 1e999              | #/items/1/sizeMl
          "sizeMl": 3         | "sizeMl": -1e999             | #/items/1/sizeMl
          "sizeMl": 3         | "sizeMl": "NaN"              | #/items/1/sizeMl
          "sizeMl": 3         | "sizeMl": 0                  | #/items/1/sizeMl
          {"sizeMl": 3}       | null                         | #/items/1
          {"sizeMl": 3}       | []                           | #/items/1
          [1, 2.5]            | [1, null]                    | #/values/1
          [1, 2.5]            | [true]                       | #/values/0
          [1, 2.5]            | 1                            | #/values
          [1, 2.5]            | {}                           | #/values
          """)
  void answers422ToAValueThatIsNotOfItsTypeOrRange(
      String piece, String replacement, String pointer) {
    assertThat(pointers(assertProblem(post(but(piece, replacement)), 422)))
        .containsExactly(pointer);
  }

  @Test
  void namesTheAllowedValues() {
    JsonNode problem = assertProblem(post(but("\"high-gloss\"", "\"shiny\"")), 422);

    assertThat(problem.path("detail").asText())
        .isEqualTo("finish must be one of matt, high-gloss.");
  }

  @Test
  void namesEveryMissingFieldInOrder() {
    assertThat(pointers(assertProblem(post("{}"), 422)))
        .containsExactly("#/at", "#/finish", "#/items", "#/name");
  }

  @ParameterizedTest
  @ValueSource(strings = {"[]", "1", "\"x\"", "true"})
  void answers422ToABodyThatIsNoObject(String body) {
    assertThat(pointers(assertProblem(post(body), 422))).containsExactly("#");
  }

  @Test
  void answersEveryHostileBodyWithAProblemOrTakesIt() throws IOException {
    JsonNode valid = new ObjectMapper().readTree(VALID);
    int refused = 0;
    for (HostileInput.Mutation mutation : HostileInput.of(valid, SEED)) {
      RawHttp.Answer answer =
          http()
              .request(
                  "POST", "/probe/bodies", mutation.body(), true, "Content-Type: application/json");
      if (answer.status() != 200) {
        assertThat(answer.status()).as(mutation.description()).isIn(400, 413, 422);
        assertProblem(answer, answer.status());
        refused++;
      }
    }
    // Some harmless ones are taken, such as another number; most are not.
    assertThat(refused).isGreaterThan(300);
  }
}
