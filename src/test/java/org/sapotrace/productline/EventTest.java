package org.sapotrace.productline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class EventTest {

  @Test
  void isRecordedAndFoundByItsIdentifier() {
    TestStream stream = TestStream.other("[]");
    Response answer =
        post(
            "/lines/" + stream.line + "/events",
            """
            {"kind": "feed-change", "at": "2026-03-04T10:20:00+01:00", "note": "rapeseed again",
             "streams": ["watched"], "newPhase": true}
            """);

    JsonNode recorded = json(201, answer);
    String id = recorded.get("id").asText();
    assertThat(id).matches("[0-9a-f-]{14}7.*");
    assertThat(answer.header("Location")).endsWith("/api/v1/events/" + id);
    assertThat(recorded.get("line").asText()).isEqualTo(stream.line);
    assertThat(recorded.get("kind").asText()).isEqualTo("feed-change");
    assertThat(recorded.get("at").asText()).isEqualTo("2026-03-04T09:20:00Z");
    assertThat(recorded.get("note").asText()).isEqualTo("rapeseed again");
    assertThat(recorded.get("newPhase").asBoolean()).isTrue();
    assertThat(json(200, get("/events/" + id))).isEqualTo(recorded);
  }

  @Test
  void touchesAllStreamsOfTheLineUnlessToldOtherwise() {
    TestStream stream = TestStream.other("[]");
    String other =
        "{\"name\": \"Other\", \"samplingPoint\": \"other\", \"measurand\": \"other\", \"unit\": \"1\"}";
    json(201, put("/lines/" + stream.line + "/streams/another", other));

    JsonNode all = record(stream, "{\"kind\": \"maintenance\", \"at\": \"2026-03-04T09:20:00Z\"}");
    assertThat(all.get("streams").toString()).isEqualTo("[\"another\",\"watched\"]");
    assertThat(all.get("newPhase").asBoolean()).isFalse();
    assertThat(all.get("note").isNull()).isTrue();
    JsonNode one =
        record(
            stream,
            "{\"kind\": \"other\", \"at\": \"2026-03-04T09:20:00Z\", \"streams\": [\"another\"]}");
    assertThat(one.get("streams").toString()).isEqualTo("[\"another\"]");
  }

  @Test
  void isListedInOrderOfTimeWithinAPeriod() {
    TestStream stream = TestStream.other("[]");
    for (int day : new int[] {7, 3, 5, 5}) {
      record(stream, "{\"kind\": \"other\", \"at\": \"2026-03-0%dT00:00:00Z\"}".formatted(day));
    }
    String list = "/lines/" + stream.line + "/events";

    JsonNode first = json(200, get(list + "?limit=2"));
    JsonNode second = json(200, get(list + "?limit=2&cursor=" + first.get("next").asText()));
    assertThat(first.get("items").findValuesAsText("at"))
        .containsExactly("2026-03-03T00:00:00Z", "2026-03-05T00:00:00Z");
    assertThat(second.get("items").findValuesAsText("at"))
        .containsExactly("2026-03-05T00:00:00Z", "2026-03-07T00:00:00Z");
    assertThat(second.get("next").isNull()).isTrue();
    assertThat(first.at("/items/1/id").asText())
        .as("two at one time, in the order of recording")
        .isLessThan(second.at("/items/0/id").asText());
    assertThat(
            json(200, get(list + "?from=2026-03-05T00:00:00Z&to=2026-03-06T00:00:00Z"))
                .get("items"))
        .hasSize(2);
  }

  @Test
  void isRefusedWhereItCannotHaveHappenedSo() {
    TestStream stream = TestStream.other("[]");
    String ahead = Instant.now().plus(Duration.ofMinutes(6)).toString();

    refuses(stream, "{\"kind\": \"other\", \"at\": \"%s\"}".formatted(ahead), "#/at", "check the");
    refuses(stream, "{\"kind\": \"other\", \"at\": \"1026-03-04T09:20:00Z\"}", "#/at", "year");
    refuses(
        stream,
        "{\"kind\": \"other\", \"at\": \"2026-03-04T09:20:00Z\", \"streams\": [\"watched\", \"none\"]}",
        "#/streams/1",
        "has no stream none");
    refuses(
        stream,
        "{\"kind\": \"other\", \"at\": \"2026-03-04T09:20:00Z\", \"streams\": [\"watched\", \"watched\"]}",
        "#/streams/1",
        "named twice");
    refuses(stream, "{\"at\": \"2026-03-04T09:20:00Z\"}", "#/kind", "");
    refuses(stream, "{\"kind\": \"other\"}", "#/at", "");
    assertThat(json(200, get("/lines/" + stream.line + "/events")).get("items")).isEmpty();
  }

  @Test
  void isTakenFromAClockThatIsALittleAhead() {
    TestStream stream = TestStream.other("[]");
    String ahead = Instant.now().plus(Duration.ofMinutes(4)).toString();

    assertThat(record(stream, "{\"kind\": \"other\", \"at\": \"%s\"}".formatted(ahead)).has("id"))
        .isTrue();
  }

  @Test
  void isUnknownWithoutItsLine() {
    json(
        404,
        post("/lines/nowhere/events", "{\"kind\": \"other\", \"at\": \"2026-03-04T09:20:00Z\"}"));
    json(404, get("/lines/nowhere/events"));
    json(404, get("/events/01a2123c-1e7a-7659-b1c2-3a7ffe49715f"));
  }

  private static JsonNode record(TestStream stream, String event) {
    return json(201, post("/lines/" + stream.line + "/events", event));
  }

  private static void refuses(TestStream stream, String event, String pointer, String detail) {
    JsonNode problem = json(422, post("/lines/" + stream.line + "/events", event));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
    assertThat(problem.get("detail").asText()).contains(detail);
  }
}
