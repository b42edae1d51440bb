package org.sapotrace.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class LedgerTest {

  private static final String TITRATION =
      """
      {"batch": "K-1", "sampledAt": "2026-03-04T09:20:00Z", "analyst": "mh",
       "titrant": {"normality": 0.01}, "replicates": [{"titrantMl": %s, "sampleG": 40.03}]}
      """;

  @Test
  void holdsWhatWasRecordedCorrectedAndWithdrawn() {
    TestStream stream = TestStream.soap();
    JsonNode recorded = json(201, post(stream.path + "/titrations", TITRATION.formatted("0.47")));
    String corrections = "/results/%s/corrections".formatted(recorded.path("id").asText());
    json(
        201,
        post(
            corrections,
            "{\"reason\": \"misread\", \"titration\": %s}".formatted(TITRATION.formatted("0.74"))));
    json(201, post(corrections, "{\"reason\": \"wrong jar\", \"withdrawn\": true}"));

    List<JsonNode> entries = entries("?line=" + stream.line + "&stream=watched");

    assertThat(entries)
        .extracting(entry -> entry.path("action").asText())
        .containsExactly("stream-put", "result-recorded", "result-corrected", "result-withdrawn");
    JsonNode first = entries.get(1);
    assertThat(first.path("subject")).isEqualTo(recorded.path("id"));
    assertThat(first.path("actor").asText()).isEqualTo("bench");
    assertThat(first.at("/content/value")).isEqualTo(recorded.at("/result/value"));
    assertThat(first.at("/content/outcome")).isEqualTo(recorded.at("/verdict/outcome"));
    assertThat(first.at("/content/entered/analyst").asText()).isEqualTo("mh");
    assertThat(first.at("/content/entered/readings").toString()).contains("0.47");
    assertThat(entries.get(3).at("/content/reason").asText()).isEqualTo("wrong jar");
  }

  @Test
  void saysThatALineOrAStreamIsNotThere() {
    TestStream stream = TestStream.soap();

    assertThat(json(404, get("/ledger?line=no-such-line")).path("detail").asText())
        .isEqualTo("There is no line no-such-line.");
    assertThat(
            json(404, get("/ledger?line=" + stream.line + "&stream=other")).path("detail").asText())
        .isEqualTo("Line %s has no stream other.".formatted(stream.line));
  }

  @Test
  void holdsWhatWasSaidOfALineAndWhatHappenedThere() {
    TestStream stream = TestStream.soap();
    json(200, put("/lines/" + stream.line, "{\"name\": \"Renamed\", \"alkali\": \"sodium\"}"));
    json(
        201,
        post(
            "/lines/" + stream.line + "/events",
            "{\"kind\": \"maintenance\", \"at\": \"2026-03-04T09:00:00Z\", \"note\": \"new seal\"}"));

    List<JsonNode> entries =
        entries("?line=" + stream.line).stream()
            .filter(entry -> entry.path("stream").isNull())
            .toList();

    assertThat(entries)
        .extracting(entry -> entry.path("action").asText())
        .containsExactly("line-put", "line-put", "event-recorded");
    assertThat(entries.get(1).at("/content/name").asText()).isEqualTo("Renamed");
    assertThat(entries.get(2).at("/content/note").asText()).isEqualTo("new seal");
  }

  @Test
  void holdsLimitsAndFindings() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 1}, \"reason\": \"as designed\"}");
    String signal = stream.record(15).at("/control/signals/0/id").asText();
    json(
        200,
        put(
            "/signals/%s/finding".formatted(signal),
            "{\"cause\": \"a leak\", \"action\": \"sealed\", \"by\": \"mh\"}"));

    List<JsonNode> entries = entries("?line=" + stream.line + "&stream=watched");

    assertThat(entries)
        .extracting(entry -> entry.path("action").asText())
        .containsExactly("stream-put", "limits-adopted", "result-recorded", "finding-put");
    assertThat(entries.get(1).at("/content/reason").asText()).isEqualTo("as designed");
    assertThat(entries.get(1).at("/content/limits/centre").asDouble()).isEqualTo(10);
    assertThat(entries.get(3).at("/content/by").asText()).isEqualTo("mh");
    assertThat(entries.get(3).path("subject").asText()).isEqualTo(signal);
  }

  @Test
  void holdsWhatATitrantLotWasWorthAndWhatWasRestated() {
    String lot = "hcl-" + UUID.randomUUID();
    json(
        201,
        put(
            "/titrants/" + lot,
            "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01}"));
    json(
        201,
        post(
            "/titrants/" + lot + "/standardisations",
            """
            {"standard": "sodium-carbonate", "performedAt": "2026-03-01T09:00:00Z",
             "replicates": [{"standardG": 0.00532, "titrantMl": 10.04}]}
            """));
    json(201, post("/titrants/" + lot + "/restatements", "{\"reason\": \"as a rule\"}"));

    assertThat(entries(""))
        .filteredOn(entry -> entry.path("stream").asText().equals(lot))
        .extracting(entry -> entry.path("action").asText())
        .containsExactly("stream-put", "lot-put", "result-recorded", "lot-restated");
  }

  @Test
  void holdsSubscriptionsWithoutWhatTheySignBy() {
    String slug = "s-" + UUID.randomUUID();
    json(
        201,
        put("/subscriptions/" + slug, "{\"url\": \"https://alerts.plant.example/sapotrace\"}"));

    JsonNode entry =
        entries("").stream()
            .filter(each -> each.path("chain").asText().equals("subscription/" + slug))
            .findFirst()
            .orElseThrow();

    assertThat(entry.path("action").asText()).isEqualTo("subscription-put");
    assertThat(entry.toString()).contains("alerts.plant.example").doesNotContain("whsec_");
  }

  @Test
  void holdsNothingOfWhatWasRefused() {
    TestStream stream = TestStream.soap();

    json(422, post(stream.path + "/titrations", TITRATION.formatted("-0.47")));

    assertThat(entries("?line=" + stream.line + "&stream=watched")).hasSize(1);
  }

  @Test
  void goesOnWhereACursorEnds() {
    TestStream stream = TestStream.other("[]");
    for (int i = 0; i < 7; i++) {
      stream.record(i);
    }
    List<String> whole = hashes(entries("?line=" + stream.line));
    List<String> paged = new ArrayList<>();
    String next = "";
    do {
      JsonNode page = json(200, get("/ledger?limit=2&line=" + stream.line + next));
      page.path("items").forEach(item -> paged.add(item.path("hash").asText()));
      next = page.path("next").isNull() ? "" : "&cursor=" + page.path("next").asText();
    } while (!next.isEmpty());

    assertThat(paged).isEqualTo(whole).hasSize(9);
  }

  @Test
  void isIntact() {
    TestStream.soap();

    JsonNode verification = json(200, get("/ledger/verification"));

    assertThat(verification.toString())
        .matches("\\{\"intact\":true,\"entries\":[1-9][0-9]*,\"firstBroken\":null}");
  }

  static List<JsonNode> entries(String filter) {
    List<JsonNode> entries = new ArrayList<>();
    String next = "";
    do {
      String separator = filter.isEmpty() ? "?" : "&";
      JsonNode page = json(200, get("/ledger" + filter + separator + "limit=1000" + next));
      page.path("items").forEach(entries::add);
      next = page.path("next").isNull() ? "" : "&cursor=" + page.path("next").asText();
    } while (!next.isEmpty());
    return entries;
  }

  private static List<String> hashes(List<JsonNode> entries) {
    return entries.stream().map(entry -> entry.path("hash").asText()).toList();
  }
}
