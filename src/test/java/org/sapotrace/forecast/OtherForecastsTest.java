package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.PostgresResource;

/** Flushes, washes and tanks whose truth is known. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class OtherForecastsTest {

  /** C = 1200 exp(-V/100), in L: 50 mg/kg are reached after ln(1200/50) = 3.178 hold-ups. */
  @Test
  void findsTheHoldUpOfAFlushAndWhatIsLeft() {
    Tower flush = flush();
    flush.titrate(0.5, 40, "{\"litres\": 600}", null);
    flush.event("maintenance", 1);
    for (int i = 0; i < 6; i++) {
      flush.titrate(
          1 + 0.1 * i, 1200 * Math.exp(-0.4 * i), "{\"litres\": %s}".formatted(40 * i), null);
    }
    JsonNode forecast = flush.forecast();

    assertThat(forecast.get("kind").asText()).isEqualTo("flush");
    assertThat(Tower.parameter(forecast, "V_h", "L")).isCloseTo(100, within(0.1));
    assertThat(forecast.at("/remaining/quantity").asText()).isEqualTo("volume");
    assertThat(forecast.at("/remaining/value").asDouble())
        .isCloseTo(100 * Math.log(1200 / 50.0) - 200, within(0.5));
    assertThat(forecast.get("evidence")).hasSize(6);
    flush.titrate(2, 45, "{\"litres\": 330}", null);
    flush.titrate(2.1, 42, "{\"litres\": 340}", null);
    JsonNode clean = flush.forecast();
    assertThat(clean.at("/remaining/value").asDouble()).isZero();
    assertThat(clean.get("reason").asText()).startsWith("Clean: 2 samples running");
  }

  /** 12, then 90 of which nobody wrote down what had gone through, then 15: not two running. */
  @Test
  void judgesAFlushByAllOfItsSamples() {
    Tower flush = flush();
    flush.titrate(1, 12, "{\"litres\": 300}", null);
    flush.titrate(1.1, 90, null, null);
    flush.titrate(1.2, 15, "{\"litres\": 320}", null);
    assertThat(flush.forecast().get("status").asText()).isEqualTo("insufficient");

    flush.titrate(1.3, 14, null, null);
    JsonNode clean = flush.forecast();
    assertThat(clean.get("reason").asText()).startsWith("Clean: 2 samples running");
    assertThat(clean.get("evidence")).hasSize(3);
  }

  @Test
  void seesThatAFlushFlattensAboveTheCleanLevel() {
    Tower flush = flush();
    for (int i = 0; i < 10; i++) {
      flush.titrate(
          1 + 0.1 * i, 200 + 1000 * Math.exp(-0.8 * i), "{\"bedVolumes\": %s}".formatted(i), null);
    }
    JsonNode forecast = flush.forecast();

    assertThat(forecast.get("status").asText()).isEqualTo("no-trend");
    assertThat(forecast.get("reason").asText()).contains("does not clean the tower");
    assertThat(Tower.parameter(forecast, "C_inf", "mg/kg")).isCloseTo(200, within(1.0));
  }

  @Test
  void saysWhatAFlushLacks() {
    Tower flush = flush();
    assertThat(flush.forecast().get("missing").asText()).contains("throughput", "maintenance");
    flush.titrate(1, 900, "{\"litres\": 0}", null);
    assertThat(flush.forecast().get("missing").asText()).endsWith("still wanted: 4.");
  }

  private static Tower flush() {
    return Tower.make().beside("flush", "flush-methanol", "{\"upper\": 50}");
  }

  /**
   * 1200 to 300 mg/kg in one stage is E = 3. To 66.21 mg/kg it then takes ln(1200/66.21)/ln 4 =
   * 2.0896 stages with fresh water each, and ln(1 + 2 * 1200/66.21)/ln 3 - 1 = 2.2928 ... in
   * opposite directions, both computed from the formulas.
   */
  @ParameterizedTest
  @CsvSource({"cross-flow, 2.0896", "counter-current, 2.2928"})
  void tellsHowManyStagesAWashNeeds(String scheme, double stages) {
    Tower wash = wash(1200, 300);
    JsonNode forecast = json(200, get(wash.path + "/forecast?scheme=" + scheme));

    assertThat(forecast.get("kind").asText()).isEqualTo("water-wash");
    assertThat(Tower.parameter(forecast, "extraction factor", "1")).isCloseTo(3, within(1e-6));
    assertThat(Tower.parameter(forecast, "removal per stage", "1"))
        .isCloseTo(Math.log(4), within(1e-9));
    assertThat(forecast.at("/remaining/quantity").asText()).isEqualTo("stages needed");
    assertThat(forecast.at("/remaining/value").asDouble()).isCloseTo(stages, within(1e-3));
    assertThat(forecast.get("reason").asText()).contains("cross-flow", "counter-current");
    assertThat(forecast.get("evidence")).hasSize(8);
  }

  /** Two stages of E = 3 take 1200 to 75 mg/kg, by the table of the water wash (computed). */
  @Test
  void takesTheWashForAsManyStagesAsItHas() {
    Tower wash = wash(1200, 75);
    JsonNode forecast = json(200, get(wash.path + "/forecast?stages=2"));

    assertThat(Tower.parameter(forecast, "extraction factor", "1")).isCloseTo(3, within(1e-6));
    assertThat(Tower.parameter(forecast, "removal per stage", "1"))
        .isCloseTo(Math.log(4), within(1e-9));
    assertThat(forecast.at("/remaining/value").asDouble()).isCloseTo(2.0896, within(1e-3));
  }

  @Test
  void saysThatTheSoapBeforeAWashIsMissing() {
    Tower wash = Tower.make().beside("washed", "after-wash", "null");
    for (int day = 1; day < 5; day++) {
      wash.titrate(day, 300, null, day == 1 ? 1200.0 : null);
    }

    assertThat(wash.forecast().get("missing").asText())
        .contains("inletMgPerKg")
        .endsWith("still wanted: 2.");
  }

  /** One batch, sampled three times, tells of one wash; of each batch the latest sample counts. */
  @Test
  void countsABatchOnceHoweverOftenItWasSampled() {
    Tower wash = Tower.make().washed();
    wash.measureInlet(1, 1200);
    for (double day : new double[] {1, 1.1, 1.2}) {
      wash.titrate(day, 400, null, null);
    }
    JsonNode one = wash.forecast();
    assertThat(one.get("status").asText()).isEqualTo("insufficient");
    assertThat(one.get("missing").asText()).endsWith("still wanted: 2.");

    wash.titrate(1.3, 300, null, null);
    for (int day = 2; day < 4; day++) {
      wash.measureInlet(day, 1200);
      wash.titrate(day, 300, null, null);
    }
    assertThat(Tower.parameter(wash.forecast(), "extraction factor", "1"))
        .isCloseTo(3, within(1e-6));
  }

  private static Tower wash(double inlet, double outlet) {
    Tower wash = Tower.make().washed();
    for (int day = 1; day < 5; day++) {
      wash.measureInlet(day, inlet);
      wash.titrate(day, outlet, null, null);
    }
    return wash;
  }

  /** 40 mg/kg and 2 more each day: 66.21 mg/kg are reached 13.107 days after the first. */
  @Test
  void tellsTheDaysUntilATankReachesItsLimit() {
    Tower tank = Tower.make().beside("tank", "storage", "null");
    tank.value(0.5, 90);
    tank.newPhase(0.7);
    for (int day = 1; day <= 6; day++) {
      tank.value(day, 40 + 2 * (day - 1) + (day % 2 == 0 ? 0.1 : -0.1));
    }
    JsonNode forecast = tank.forecast();

    assertThat(forecast.get("kind").asText()).isEqualTo("storage");
    assertThat(forecast.get("status").asText()).isEqualTo("forecast");
    assertThat(Tower.parameter(forecast, "slope", "mg/kg/d")).isCloseTo(2, within(0.05));
    assertThat(forecast.at("/remaining/unit").asText()).isEqualTo("d");
    assertThat(forecast.at("/remaining/value").asDouble()).isCloseTo(13.107 - 5, within(0.3));
    assertThat(forecast.get("evidence")).hasSize(6);
  }

  /**
   * 40 mg/kg and 2 more each day, to the digit: they are known to some 1 mg/kg each all the same.
   */
  @Test
  void isNoSurerOfATankThanItsTitrationsAre() {
    Tower tank = Tower.make().beside("tank", "storage", "null");
    JsonNode first = null;
    for (int day = 1; day <= 6; day++) {
      JsonNode recorded = tank.titrate(day, 40 + 2 * (day - 1), null, null);
      first = first == null ? recorded : first;
    }
    JsonNode left = tank.forecast().get("remaining");
    // 2 mg/kg are a day, so that a single result is a day of u / 2.
    double single = 1.96 * first.at("/result/standardUncertainty").asDouble() / 2;

    assertThat(single).isGreaterThan(0.1);
    assertThat(left.get("value").asDouble()).isCloseTo(13.107 - 5, within(0.01));
    assertThat(left.get("lower").asDouble()).isLessThan(8.107 - single);
    assertThat(left.get("upper").asDouble()).isGreaterThan(8.107 + single);
  }

  @Test
  void seesNoTrendInATankThatRests() {
    Tower tank = Tower.make().beside("tank", "storage", "null");
    for (int day = 1; day <= 8; day++) {
      tank.value(day, 40 + (day % 2 == 0 ? 1 : -1));
    }
    JsonNode forecast = tank.forecast();

    assertThat(forecast.get("status").asText()).isEqualTo("no-trend");
    assertThat(forecast.get("remaining").isNull()).isTrue();
    assertThat(forecast.get("reason").asText()).contains("may as well be 0");
  }

  /** It lies above its upper limit, and reaches the lower one only after that. */
  @Test
  void saysThatATankIsPastItsLimitThoughItFalls() {
    Tower tank = Tower.make().beside("tank", "storage", "{\"lower\": 10, \"upper\": 60}");
    for (int day = 1; day <= 6; day++) {
      tank.value(day, 80 - 2 * day + (day % 2 == 0 ? 0.1 : -0.1));
    }
    JsonNode forecast = tank.forecast();

    assertThat(forecast.get("status").asText()).isEqualTo("forecast");
    assertThat(forecast.at("/remaining/limit").asDouble()).isEqualTo(60);
    assertThat(forecast.at("/remaining/value").asDouble()).isZero();
    assertThat(forecast.get("reason").asText()).contains("passed already");
  }

  @Test
  void looksAtTheLowerLimitWhereResultsFall() {
    Tower other = Tower.make().beside("other", "other", "{\"lower\": 10, \"upper\": 100}");
    for (int day = 1; day <= 6; day++) {
      other.value(day, 50 - 3 * day + (day % 2 == 0 ? 0.1 : -0.1));
    }
    JsonNode forecast = other.forecast();

    assertThat(forecast.get("kind").asText()).isEqualTo("trend");
    assertThat(forecast.at("/remaining/limit").asDouble()).isEqualTo(10);
    assertThat(forecast.at("/remaining/value").asDouble()).isCloseTo(22 / 3.0, within(0.3));
  }

  @Test
  void asksForTheLeastRemovalThatWillDo() {
    Tower wash = wash(1200, 300);
    JsonNode forecast = json(200, get(wash.path + "-removal/forecast"));

    assertThat(forecast.get("kind").asText()).isEqualTo("trend");
    assertThat(forecast.get("missing").asText())
        .startsWith("specification.lower")
        .doesNotContain("upper");
  }

  @Test
  void saysWhatATrendLacks() {
    Tower crude = Tower.make().beside("feed", "crude", "null");
    assertThat(crude.forecast().get("missing").asText()).startsWith("Results of at least 4");
    crude.value(1, 1200);
    assertThat(crude.forecast().get("missing").asText()).startsWith("specification.upper");
    json(404, get(crude.path + "x/forecast"));
    json(422, post(crude.path + "/titrations", "{}"));
  }
}
