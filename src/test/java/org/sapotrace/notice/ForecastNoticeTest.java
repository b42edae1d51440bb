package org.sapotrace.notice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.Imports;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Receiver;

/** A forecast that comes within seven days of its limit is told once, until it moved away again. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ForecastNoticeTest {

  private static final String TANK =
      """
      {"name": "Tank 3", "samplingPoint": "%s", "measurand": "soap", "unit": "mg/kg",
       "chart": {"ewma": null, "rules": []}}
      """;
  private static final Instant FIRST = Instant.parse("2026-01-05T06:00:00Z");

  private final Receiver receiver = new Receiver();

  @AfterEach
  void hangUp() {
    receiver.close();
  }

  private static void record(TestStream stream, int day, double value) {
    stream.recordAt(value, FIRST.plus(Duration.ofDays(day)));
  }

  /** 40 mg/kg and 2 more each day reach 66.21 mg/kg on day 13.1. */
  @Test
  void tellsATankOnceAndAgainAfterItRested() {
    TestStream stream = TestStream.with(TANK.formatted("storage"));
    Subscriber subscriber = new Subscriber(receiver, stream.line);
    for (int day = 0; day <= 5; day++) {
      record(stream, day, 40 + 2 * day + (day % 2) * 0.1);
    }
    assertThat(subscriber.told()).isEmpty();
    for (int day = 6; day <= 9; day++) {
      record(stream, day, 40 + 2 * day + (day % 2) * 0.1);
    }
    assertThat(subscriber.told()).containsExactly("forecast.crossing");

    JsonNode event = subscriber.deliveries().get(0).get("event");
    JsonNode data = event.get("data");
    assertThat(data.get("kind").asText()).isEqualTo("storage");
    assertThat(data.get("days").asDouble()).isCloseTo(13.107 - 7, within(0.3));
    assertThat(data.get("limit").asDouble()).isEqualTo(66.21357111787734);
    assertThat(data.get("text").asText())
        .startsWith(
            "Tank 3, counted from the sample of 2026-01-12 06:00 UTC: the limit of 66.21 mg/kg is reached in ");
    assertThat(data.at("/links/record").asText()).endsWith(stream.path + "/forecast");
    assertThat(event.get("subject")).isEqualTo(data.at("/links/record"));

    // A level tank has no trend; once it rises again, that is told again.
    newPhase(stream, 10);
    for (int day = 10; day <= 15; day++) {
      record(stream, day, 40 + (day % 2) * 0.5);
    }
    assertThat(subscriber.told()).hasSize(1);
    newPhase(stream, 16);
    for (int day = 16; day <= 21; day++) {
      record(stream, day, 50 + 2 * (day - 16) + (day % 2) * 0.1);
    }
    assertThat(subscriber.told()).containsExactly("forecast.crossing", "forecast.crossing");
  }

  /**
   * Tanks about 66.21 mg/kg: every other day the level lies beyond it, and between there is no
   * trend. Empty at 40, and a month later full again, that is told again.
   */
  @Test
  void tellsOnceOfATankThatRestsAtItsLimit() {
    TestStream stream = TestStream.with(TANK.formatted("storage"));
    Subscriber subscriber = new Subscriber(receiver, stream.line);
    for (int day = 0; day <= 11; day++) {
      record(stream, day, 66.2 + (day % 2 == 0 ? -0.8 : 0.8));
    }
    assertThat(crossings(subscriber)).isEqualTo(1);
    for (int day = 12; day <= 23; day++) {
      record(stream, day, 40 + (day % 2 == 0 ? -0.8 : 0.8));
    }
    assertThat(crossings(subscriber)).isEqualTo(1);
    newPhase(stream, 24);
    for (int day = 24; day <= 30; day++) {
      record(stream, day, 66.2 + (day % 2 == 0 ? -0.8 : 0.8));
    }
    assertThat(crossings(subscriber)).isEqualTo(2);
  }

  private static long crossings(Subscriber subscriber) {
    return subscriber.told().stream().filter("forecast.crossing"::equals).count();
  }

  /** The same tank, brought from elsewhere long after. */
  @Test
  void tellsNothingOfWhatAnImportForesaw() {
    TestStream stream = TestStream.with(TANK.formatted("storage"));
    Subscriber subscriber = new Subscriber(receiver, stream.line);
    StringBuilder rows = new StringBuilder();
    for (int day = 0; day <= 9; day++) {
      rows.append(
          "{\"batch\": \"B\", \"sampledAt\": \"%s\", \"values\": [%s]}\n"
              .formatted(FIRST.plus(Duration.ofDays(day)), 40 + 2 * day + (day % 2) * 0.1));
    }
    Api.json(200, Imports.ndjson(stream, rows.toString()));
    assertThat(subscriber.told()).isEmpty();
    record(stream, 10, 60);
    assertThat(subscriber.told()).containsExactly("forecast.crossing");
  }

  private static void newPhase(TestStream stream, int day) {
    Api.json(
        201,
        Api.post(
            "/lines/%s/events".formatted(stream.line),
            "{\"kind\": \"other\", \"at\": \"%s\", \"newPhase\": true}"
                .formatted(FIRST.plus(Duration.ofDays(day)).minusSeconds(60))));
  }

  /** k = 0.02, tau = 550 bed volumes, 20 a day: 408 are the limit, reached on day 20.4. */
  @Test
  void tellsATowerByWhatGoesThroughInADay() {
    TestStream stream = TestStream.with(TANK.formatted("after-dry-wash"));
    Subscriber subscriber = new Subscriber(receiver, stream.line);
    for (int day = 5; day <= 18; day++) {
      titrate(stream, day, 20 * day, soapBehind(20 * day));
    }
    assertThat(subscriber.told()).containsExactly("forecast.crossing");
    JsonNode data = subscriber.deliveries().get(0).at("/event/data");
    assertThat(data.get("unit").asText()).isEqualTo("bed volumes");
    assertThat(data.get("days").asDouble() * 20)
        .isCloseTo(data.get("remaining").asDouble(), within(1e-6));
    assertThat(data.get("days").asDouble()).isBetween(0.1, 7.0);
    assertThat(data.get("text").asText()).contains("bed volumes more, in some ");
    assertThat(data.get("advice").asText()).startsWith("Have a fresh bed ready");
  }

  /** Its bed is spent: 80 mg/kg come through from the first of these samples on. */
  @Test
  void tellsOnceThatATowerIsPastItsLimit() {
    TestStream stream = TestStream.with(TANK.formatted("after-dry-wash"));
    Subscriber subscriber = new Subscriber(receiver, stream.line);
    for (int day = 5; day <= 10; day++) {
      titrate(stream, day, 20 * day, 80 + day % 2);
    }
    assertThat(subscriber.told()).containsOnlyOnce("forecast.crossing");
    int told = subscriber.told().indexOf("forecast.crossing");
    JsonNode data = subscriber.deliveries().get(told).at("/event/data");
    assertThat(data.get("remaining").asDouble()).isZero();
    assertThat(data.get("text").asText()).contains("is reached already", "come through already");
    assertThat(data.get("advice").asText()).startsWith("Change over to a fresh bed now");
  }

  /**
   * Counted in bed volumes of 25 L until day 18, and in litres from then on: of these are too few
   * at first. A new bed is told of anew.
   */
  @Test
  void tellsOnceOfATowerWhoseBenchChangesOverItsUnit() {
    TestStream stream = TestStream.with(TANK.formatted("after-dry-wash"));
    Subscriber subscriber = new Subscriber(receiver, stream.line);
    for (int day = 5; day <= 18; day++) {
      titrate(stream, day, 20 * day, soapBehind(20 * day));
    }
    assertThat(crossings(subscriber)).isEqualTo(1);
    for (int day = 19; day <= 23; day++) {
      titrate(stream, day, "{\"litres\": %d}".formatted(500 * day), soapBehind(20 * day));
      boolean isFew = day == 21;
      assertThat(forecast(stream).equals("insufficient")).isEqualTo(isFew);
    }
    assertThat(crossings(subscriber)).isEqualTo(1);

    Api.json(
        201,
        Api.post(
            "/lines/%s/events".formatted(stream.line),
            "{\"kind\": \"media-change\", \"at\": \"%s\"}"
                .formatted(FIRST.plus(Duration.ofDays(24)).minusSeconds(60))));
    for (int day = 24; day <= 30; day++) {
      titrate(stream, day, 20 * (day - 10), soapBehind(20 * (day - 10)));
    }
    assertThat(crossings(subscriber)).isEqualTo(2);
  }

  private static String forecast(TestStream stream) {
    return Api.json(200, Api.get(stream.path + "/forecast")).get("status").asText();
  }

  private static double soapBehind(double volume) {
    return 1200 / (1 + Math.exp(0.02 * (550 - volume)));
  }

  private static void titrate(TestStream stream, int day, double volume, double soap) {
    titrate(stream, day, "{\"bedVolumes\": %s}".formatted(volume), soap);
  }

  private static void titrate(TestStream stream, int day, String throughput, double soap) {
    Api.json(
        201,
        Api.post(
            stream.path + "/titrations",
            """
            {"batch": "B-%d", "sampledAt": "%s", "titrant": {"normality": 0.01}, "blankMl": 0,
             "replicates": [{"titrantMl": %s, "sampleG": 100}],
             "throughput": %s, "inletMgPerKg": 1200}
            """
                .formatted(day, FIRST.plus(Duration.ofDays(day)), soap / 30.445, throughput)));
  }

  @Test
  void tellsNothingOfAWaterWash() {
    TestStream stream = TestStream.with(TANK.formatted("after-wash"));
    Subscriber subscriber = new Subscriber(receiver, stream.line);
    for (int day = 0; day <= 9; day++) {
      record(stream, day, 40 + 2 * day + (day % 2) * 0.1);
    }
    assertThat(subscriber.told()).isEmpty();
  }
}
