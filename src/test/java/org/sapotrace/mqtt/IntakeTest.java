package org.sapotrace.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Results as messages; events are CloudEvents 1.0.2, problems those of RFC 9457. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class IntakeTest {

  private static final String EVENT =
      """
      {"specversion": "1.0", "source": "urn:plant:titrator-2", "id": "%s",
       "type": "org.sapotrace.result.measured", "data": %s}
      """;
  private static final String RESULT =
      "{\"batch\": \"K-0142\", \"sampledAt\": \"2026-03-04T09:20:00Z\", \"values\": [31.2]}";
  private static final String TITRATION =
      """
      {"batch": "K-0142", "sampledAt": "2026-03-04T09:20:00Z", "titrant": {"normality": 0.01},
       "blankMl": 0.05, "replicates": [{"titrantMl": 2.10, "sampleG": 10.00}]}
      """;

  @Inject Intake intake;
  @Inject ObjectMapper mapper;

  private final String id = UUID.randomUUID().toString();
  private TestStream stream;

  @BeforeEach
  void putAStream() {
    stream = TestStream.soap();
  }

  private Intake.Reply take(String message) {
    return take(message, false);
  }

  private Intake.Reply take(String message, boolean retained) {
    return intake.take(new Topics.Place(stream.line, "watched"), message.getBytes(UTF_8), retained);
  }

  private JsonNode recorded() {
    return json(200, get(stream.path + "/results")).get("items");
  }

  private JsonNode refused(Intake.Reply reply) throws IOException {
    assertThat(reply.outcome()).isEqualTo("refused");
    assertThat(recorded()).isEmpty();
    return mapper.readTree(reply.payload());
  }

  @Test
  void takesResultsAndTitrationsInTheFormOfTheInterface() throws IOException {
    assertThat(take(EVENT.formatted(id, RESULT)).outcome()).isEqualTo("recorded");
    Intake.Reply reply = take(EVENT.formatted("T " + id, TITRATION));

    JsonNode answer = mapper.readTree(reply.payload());
    JsonNode titration = json(200, get("/results/" + answer.get("result").asText()));
    assertThat(answer.get("id").asText()).isEqualTo("T " + id);
    assertThat(answer.get("position")).isEqualTo(titration.at("/control/position"));
    assertThat(answer.get("verdict")).isEqualTo(titration.at("/verdict/outcome"));
    assertThat(recorded()).hasSize(2);
  }

  @Test
  void recordsOnceWhatComesTwiceAtTheSameTime() throws Exception {
    ExecutorService threads = Executors.newFixedThreadPool(2);
    try {
      Future<Intake.Reply> one = threads.submit(() -> take(EVENT.formatted(id, RESULT)));
      Future<Intake.Reply> other = threads.submit(() -> take(EVENT.formatted(id, RESULT)));
      assertThat(one.get()).isEqualTo(other.get());
    } finally {
      threads.shutdown();
    }
    assertThat(recorded()).hasSize(1);
  }

  @Test
  void doesNotTakeTwoResultsForOne() throws IOException {
    take(EVENT.formatted(id, RESULT));
    Intake.Reply reply = take(EVENT.formatted(id, RESULT.replace("31.2", "31.3")));

    assertThat(reply.outcome()).isEqualTo("refused");
    assertThat(mapper.readTree(reply.payload()).at("/problem/detail").asText())
        .contains("an id of its own");
    assertThat(recorded()).hasSize(1);
  }

  /** The same identifier of two sources names two events. */
  @Test
  void tellsSourcesApart() {
    take(EVENT.formatted(id, RESULT));
    take(EVENT.formatted(id, RESULT).replace("titrator-2", "titrator-3"));

    assertThat(recorded()).hasSize(2);
  }

  @Test
  void judgesAfreshWhatWasRefused() {
    take(EVENT.formatted(id, RESULT.replace("2026", "2126")));
    take(EVENT.formatted(id, RESULT));

    assertThat(recorded()).hasSize(1);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          "1.0"             | "0.3"                 | #/specversion
          "urn:plant:titrator-2" | ""               | #/source
          "urn:plant:titrator-2" | null             | #/source
          "org.sapotrace.result.measured" | "other" | #/type
          "values": [31.2]  | "values": [1e999]     | #/values/0
          "values": [31.2]  | "values": []          | #/values
          """)
  void pointsAtWhatIsWrong(String right, String wrong, String pointer) throws IOException {
    JsonNode answer = refused(take(EVENT.formatted(id, RESULT).replace(right, wrong)));

    assertThat(answer.get("id").asText()).isEqualTo(id);
    assertThat(answer.at("/problem/errors/0/pointer").asText()).isEqualTo(pointer);
    assertThat(answer.at("/problem/status").asInt()).isBetween(400, 422);
  }

  @Test
  void answersWhateverComes() throws IOException {
    for (String message :
        List.of(
            "",
            "null",
            "[]",
            "{",
            "1",
            "\u0000",
            "{\"id\": 7}",
            "{\"data\": null}",
            "[".repeat(5000))) {
      JsonNode answer = refused(take(message));
      assertThat(answer.has("id")).isFalse();
      assertThat(answer.at("/problem/status").asInt()).isBetween(400, 422);
    }
  }

  @Test
  void refusesAnEntryThatIsNeither() throws IOException {
    JsonNode answer = refused(take(EVENT.formatted(id, "{\"batch\": \"K-0142\"}")));

    assertThat(answer.at("/problem/detail").asText()).contains("either a titration");
  }

  @Test
  void refusesAStreamThatIsNotThere() {
    Intake.Reply reply =
        intake.take(
            new Topics.Place("NO/SUCH", ""), EVENT.formatted(id, RESULT).getBytes(UTF_8), false);

    assertThat(reply.payload()).contains("/problems/not-found", id);
  }

  @Test
  void refusesMoreThan64KiB() throws IOException {
    String message = EVENT.formatted(id, RESULT);
    assertThat(take(message + " ".repeat(Intake.LONGEST - message.length())).outcome())
        .isEqualTo("recorded");
    assertThat(take(message + " ".repeat(Intake.LONGEST - message.length() + 1)).payload())
        .contains("/problems/too-large");
  }

  @Test
  void refusesWhatTheBrokerWouldBringAgainAndAgain() throws IOException {
    assertThat(refused(take(EVENT.formatted(id, RESULT), true)).at("/problem/detail").asText())
        .contains("without the retain flag");
  }
}
