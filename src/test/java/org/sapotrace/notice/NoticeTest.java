package org.sapotrace.notice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.time.Instant;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.Imports;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Receiver;

/** What is told, and what is not. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class NoticeTest {

  private static final String GIVEN = "{\"given\": {\"centre\": 30, \"sigma\": 1}}";

  private final Receiver receiver = new Receiver();

  @AfterEach
  void hangUp() {
    receiver.close();
  }

  private Subscriber of(TestStream stream) {
    return new Subscriber(receiver, stream.line);
  }

  @Test
  void tellsOfASignalWhatIsToBeDoneAndWhereItsChartIs() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    Subscriber subscriber = of(stream);
    stream.adopt(GIVEN);
    TestRelay.number();
    JsonNode recorded = stream.recordAt(34, Instant.parse("2026-01-05T06:00:00Z"));
    assertThat(subscriber.told()).containsExactly("limits.adopted", "signal.raised");

    JsonNode delivery = subscriber.deliveries().get(1);
    JsonNode event = delivery.get("event");
    assertThat(event.get("specversion").asText()).isEqualTo("1.0");
    assertThat(event.get("id")).isEqualTo(delivery.get("id"));
    assertThat(UUID.fromString(event.get("id").asText()).version()).isEqualTo(7);
    assertThat(event.get("source").asText())
        .isEqualTo("http://127.0.0.1:8080/api/v1" + stream.path);
    assertThat(event.get("datacontenttype").asText()).isEqualTo("application/json");
    JsonNode data = event.get("data");
    JsonNode signal = recorded.at("/control/signals/0");
    assertThat(data.get("signal")).isEqualTo(signal.get("id"));
    assertThat(data.get("text")).isEqualTo(signal.get("text"));
    assertThat(data.get("advice").asText())
        .isEqualTo(
            "Find what changed since about 2026-01-05 06:00 UTC, before batch B on, and put it right; the batch itself is released or held by its own verdict.");
    assertThat(data.at("/links/record").asText()).endsWith("/signals/" + signal.get("id").asText());
    assertThat(event.get("subject")).isEqualTo(data.at("/links/record"));
    assertThat(data.at("/links/chart").asText())
        .endsWith(stream.path + "/charts/individuals.png?last=60");
  }

  @Test
  void pointsAtTheChartOnWhichTheSignalIsSeen() {
    TestStream stream =
        TestStream.charted("{\"rules\": [], \"ewma\": {\"lambda\": 0.5, \"width\": 1.0}}");
    Subscriber subscriber = of(stream);
    stream.adopt(GIVEN);
    stream.record(33);
    assertThat(subscriber.told()).contains("signal.raised");
    assertThat(subscriber.deliveries().get(1).at("/event/data/links/chart").asText())
        .contains("/charts/ewma.png");
  }

  @Test
  void tellsNothingThatWasBeforeSomebodyAskedForIt() {
    TestStream stream = TestStream.soap();
    stream.record(90);
    Subscriber subscriber = of(stream);
    json(200, put(subscriber.path, subscriber.wants(receiver.url(), ", \"active\": false")));
    stream.record(91);
    json(200, put(subscriber.path, subscriber.wants(receiver.url(), "")));
    assertThat(subscriber.told()).isEmpty();
    stream.record(92);
    assertThat(subscriber.told()).containsExactly("verdict.nonconforming");
  }

  @Test
  void tellsNothingOfTrialLimits() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    Subscriber subscriber = of(stream);
    for (int i = 0; i < 20; i++) {
      stream.record(30 + i % 3);
    }
    assertThat(stream.record(90).at("/control/signals")).hasSize(1);
    assertThat(subscriber.told()).isEmpty();
  }

  @Test
  void tellsNothingThatIsFoundInHindsight() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    Subscriber subscriber = of(stream);
    stream.record(34);
    stream.record(30);
    stream.adopt(GIVEN);
    assertThat(stream.liveSignals()).hasSize(1);
    assertThat(subscriber.told()).containsExactly("limits.adopted");
    stream.record(35);
    assertThat(subscriber.told()).containsExactly("limits.adopted", "signal.raised");
  }

  @Test
  void tellsOfASignalOnceHoweverLongItGoesOn() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    Subscriber subscriber = of(stream);
    stream.adopt(GIVEN);
    stream.record(34);
    stream.record(35);
    stream.recordAt(36, Instant.parse("2026-01-05T06:30:00Z"));
    assertThat(subscriber.told()).containsExactly("limits.adopted", "signal.raised");
  }

  @Test
  void tellsThatASignalLapsedWhereItHadBeenTold() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    stream.record(34);
    Subscriber subscriber = of(stream);
    stream.adopt(GIVEN);
    JsonNode told = stream.record(26);
    String untold = stream.liveSignals().get(0);
    assertThat(untold).contains("high");

    stream.adopt(
        "{\"given\": {\"centre\": 30, \"sigma\": 9}, \"effectiveFrom\": \"2026-01-01T00:00:00Z\"}");

    assertThat(stream.liveSignals()).isEmpty();
    assertThat(subscriber.told())
        .containsExactly("limits.adopted", "signal.raised", "signal.lapsed", "limits.adopted");
    JsonNode lapsed = subscriber.deliveries().get(2).at("/event/data");
    assertThat(lapsed.get("signal")).isEqualTo(told.at("/control/signals/0/id"));
    assertThat(lapsed.get("text").asText())
        .startsWith("No longer holds, as limits revision 2 took over.");
  }

  @Test
  void tellsOfTheSignalThatStandsInThePlaceOfALapsedOne() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    Subscriber subscriber = of(stream);
    stream.adopt(GIVEN);
    JsonNode lapsing = stream.record(34);
    stream.record(38);

    stream.adopt(
        "{\"given\": {\"centre\": 30, \"sigma\": 2}, \"effectiveFrom\": \"2026-01-01T00:00:00Z\"}");

    assertThat(stream.liveSignals()).hasSize(1);
    assertThat(subscriber.told())
        .containsExactlyInAnyOrder(
            "limits.adopted", "signal.raised", "signal.lapsed", "signal.raised", "limits.adopted");
    assertThat(subscriber.deliveries())
        .filteredOn(each -> each.get("type").asText().endsWith("raised"))
        .last()
        .extracting(each -> each.at("/event/data/result"))
        .isNotEqualTo(lapsing.get("id"));
  }

  @Test
  void tellsOfASignalUnderLimitsThatItsOwnResultHadEstimatedAnew() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    Subscriber subscriber = of(stream);
    for (int i = 0; i < 8; i++) {
      stream.record(i % 2 == 0 ? 28 : 32);
    }
    stream.adopt("{\"baseline\": {\"first\": 8}, \"reestimateAt\": [20]}");
    for (int i = 8; i < 19; i++) {
      stream.record(30);
    }
    assertThat(subscriber.told()).containsExactly("limits.adopted");

    // Computed: moving ranges add up to 7*4 + 2 + 6 = 36, so that sigma is 36/19/1.128 = 1.68 where
    // it was 3.55, and the limits 30.3 +- 5.0 where they were 30 +- 10.6.
    stream.record(36);

    assertThat(stream.liveSignals()).hasSize(1);
    assertThat(subscriber.told()).containsExactly("limits.adopted", "signal.raised");
  }

  @Test
  void tellsOfAVerdictWhenItTurnsNonconforming() {
    TestStream stream = TestStream.soap();
    Subscriber subscriber = of(stream);
    JsonNode recorded = stream.record(30);
    assertThat(subscriber.told()).isEmpty();
    correct(recorded, 90);
    correct(recorded, 91);
    assertThat(subscriber.told()).containsExactly("verdict.nonconforming");
    JsonNode data = subscriber.deliveries().get(0).at("/event/data");
    assertThat(data.get("value").asDouble()).isEqualTo(90);
    assertThat(data.get("revision").asInt()).isEqualTo(2);
    assertThat(data.get("action").asText()).isEqualTo("rewash");
    assertThat(data.get("text").asText())
        .isEqualTo(
            "Washed fuel, batch B, sampled 2026-01-05 06:00 UTC, does not conform: 90 mg/kg, limit 66.21.");
    correct(recorded, 30);
    correct(recorded, 92);
    assertThat(subscriber.told()).hasSize(2);
  }

  private static void correct(JsonNode recorded, double value) {
    json(
        201,
        post(
            "/results/%s/corrections".formatted(recorded.get("id").asText()),
            "{\"reason\": \"a slip\", \"values\": [%s]}".formatted(value)));
  }

  /** What came to light long ago calls for nobody, and neither does it once more. */
  @Test
  void tellsOfASignalOfAnImportThatBeganBeforeAndStillHolds() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    stream.adopt(GIVEN);
    TestRelay.number();
    Subscriber subscriber = of(stream);
    String rows =
        row(Duration.ofHours(30), 36)
            + row(Duration.ofHours(20), 36)
            + row(Duration.ofHours(1), 36);
    json(200, Imports.ndjson(stream, rows));

    assertThat(subscriber.told()).containsExactly("signal.raised");
  }

  @Test
  void tellsOfTheRowsOfAnImportThatAreOfToday() {
    TestStream stream = TestStream.soap();
    stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 3}}");
    TestRelay.number();
    Subscriber subscriber = of(stream);
    String rows =
        row(Duration.ofHours(25), 90)
            + row(Duration.ofHours(24).plusMinutes(5), 30)
            + row(Duration.ofHours(23), 30)
            + row(Duration.ofHours(2), 90)
            + row(Duration.ofHours(1), 30);
    json(200, Imports.ndjson(stream, rows));

    // Of the last high result, and of the moving average, which began to signal before and goes on.
    assertThat(subscriber.told())
        .containsExactlyInAnyOrder("verdict.nonconforming", "signal.raised", "signal.raised");
    assertThat(stream.liveSignals()).filteredOn(s -> s.startsWith("beyond-limits")).hasSize(2);
  }

  private static String row(Duration ago, double value) {
    return "{\"batch\": \"B\", \"sampledAt\": \"%s\", \"values\": [%s]}\n"
        .formatted(Instant.now().minus(ago), value);
  }

  @Test
  void tellsWhenATitrantLeavesItsTolerance() {
    TestStream stream = TestStream.soap();
    Subscriber subscriber = of(stream);
    String lot = "/titrants/told-" + stream.line;
    json(201, put(lot, "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01}"));
    standardise(lot, "2026-03-01", 25.0);
    assertThat(subscriber.told()).isEmpty();
    // Computed: 0.0302 g of tris over 121.135 g/mol over 25.6 mL is 0.00974 mol/L, 2.4 % less in
    // ten days; the tolerance is 5 %.
    standardise(lot, "2026-03-11", 25.6);
    assertThat(subscriber.told()).containsExactly("titrant.leaving-tolerance");
    JsonNode leaving = subscriber.deliveries().get(0).at("/event/data");
    assertThat(leaving.get("leavesOn").asText()).isEqualTo("2026-03-21");
    standardise(lot, "2026-03-12", 25.7);
    assertThat(subscriber.told()).hasSize(1);
    standardise(lot, "2026-04-01", 27.0);
    assertThat(subscriber.told()).hasSize(2);
    JsonNode outside = subscriber.deliveries().get(1).at("/event/data");
    assertThat(outside.get("leavesOn").isNull()).isTrue();
    assertThat(outside.at("/links/chart").asText())
        .contains(lot + "/strength/charts/individuals.png");
  }

  private static void standardise(String lot, String day, double titrantMl) {
    json(
        201,
        post(
            lot + "/standardisations",
            """
            {"standard": "tris", "performedAt": "%sT07:30:00Z", "blankMl": 0,
             "replicates": [{"standardG": 0.0302, "titrantMl": %s}]}
            """
                .formatted(day, titrantMl)));
  }

  @Test
  void tellsNothingOfWhatIsRolledBack() {
    TestStream stream = TestStream.soap();
    Subscriber subscriber = of(stream);
    QuarkusTransaction.begin();
    TestRelay.recordNonconforming(stream);
    QuarkusTransaction.rollback();
    assertThat(subscriber.told()).isEmpty();
    TestRelay.recordNonconforming(stream);
    assertThat(subscriber.told()).containsExactly("verdict.nonconforming");
  }

  @Test
  void tellsEachSubscriberWhatItWants() {
    TestStream stream = TestStream.soap();
    TestStream other = TestStream.soap();
    Subscriber all = of(stream);
    Subscriber verdicts = of(stream);
    json(
        200,
        put(
            verdicts.path,
            verdicts.wants(
                receiver.url(), ", \"types\": [\"org.sapotrace.verdict.nonconforming\"]")));
    Subscriber silent = of(stream);
    json(200, put(silent.path, silent.wants(receiver.url(), ", \"active\": false")));
    stream.adopt(GIVEN);
    stream.record(90);
    other.record(90);
    // The result is found nonconforming before its chart is judged.
    assertThat(all.told())
        .containsExactly(
            "limits.adopted", "verdict.nonconforming", "signal.raised", "signal.raised");
    assertThat(verdicts.told()).containsExactly("verdict.nonconforming");
    assertThat(silent.told()).isEmpty();
  }
}
