package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Wash.at;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class RemovalLimitsTest {

  private static final double[] INLETS = {
    520, 480, 610, 450, 555, 505, 470, 590, 530, 495, 540, 515
  };
  private static final double[] OUTLETS = {50, 52, 55, 46, 58, 49, 45, 63, 50, 47, 56, 51};

  /** Of batch i the inlet is sampled at hour 2i, the outlet an hour later. */
  private static Wash recorded(int firstWithInlet) {
    Wash wash = Wash.watched();
    for (int i = 0; i < INLETS.length; i++) {
      if (i >= firstWithInlet) {
        wash.record("crude", "K-" + i, 2 * i, INLETS[i]);
      }
      wash.record("washed", "K-" + i, 2 * i + 1, OUTLETS[i]);
    }
    return wash;
  }

  private static JsonNode adopt(Wash wash, String limits) {
    return json(201, post(wash.path + "washed/limits", limits));
  }

  private static JsonNode ofRemovals(Wash wash) {
    return json(200, get(wash.path + "washed-removal/limits")).get("items");
  }

  private static double mean(int from, int to) {
    return Arrays.stream(logarithms(from, to)).average().orElseThrow();
  }

  private static double[] logarithms(int from, int to) {
    double[] logarithms = new double[to - from];
    Arrays.setAll(logarithms, i -> Math.log(INLETS[from + i] / OUTLETS[from + i]));
    return logarithms;
  }

  /** By hand: sigma is the mean moving range over 1.128 (NIST/SEMATECH e-Handbook 6.3.2.2). */
  @Test
  void areAdoptedFromTheSameBaseline() {
    Wash wash = recorded(0);
    JsonNode adopted = adopt(wash, "{\"baseline\": {\"first\": 10}, \"reason\": \"new mixer\"}");
    JsonNode same = ofRemovals(wash).get(0);

    assertThat(adopted.at("/diagnostics/advice").toString()).doesNotContain("washed-removal");
    assertThat(same.get("status").asText()).isEqualTo("adopted");
    assertThat(same.get("n").asInt()).isEqualTo(10);
    assertThat(same.get("baseline")).isEqualTo(adopted.get("baseline"));
    assertThat(same.get("reason").asText()).isEqualTo("new mixer");
    assertThat(same.get("effectiveFrom").isNull()).isTrue();
    assertThat(same.get("centre").asDouble()).isCloseTo(mean(0, 10), within(1e-12));
    double[] x = logarithms(0, 10);
    double ranges = 0;
    for (int i = 1; i < x.length; i++) {
      ranges += Math.abs(x[i] - x[i - 1]) / 9;
    }
    assertThat(same.get("sigma").asDouble()).isCloseTo(ranges / 1.128, within(1e-4));
    assertThat(same.get("lower").asDouble())
        .isCloseTo(mean(0, 10) - 3 * same.get("sigma").asDouble(), within(1e-12));
    assertThat(wash.removal(1).at("/control/limitsRevision").asInt()).isEqualTo(1);
  }

  @Test
  void holdFromTheirBaselineWhenAdoptedAgain() {
    Wash wash = recorded(0);
    adopt(wash, "{\"baseline\": {\"first\": 10}}");
    adopt(wash, "{\"baseline\": {\"last\": 9}}");
    JsonNode again = ofRemovals(wash).get(1);

    assertThat(again.get("n").asInt()).isEqualTo(9);
    assertThat(again.get("effectiveFrom").asText()).isEqualTo(at(7).toString());
    assertThat(again.get("centre").asDouble()).isCloseTo(mean(3, 12), within(1e-12));
  }

  @Test
  void areOfThePeriodThatIsAskedForAndHoldFromThen() {
    Wash wash = recorded(0);
    adopt(
        wash,
        "{\"baseline\": {\"from\": \"%s\", \"to\": \"%s\"}, \"effectiveFrom\": \"%s\"}"
            .formatted(at(4), at(22), at(6)));
    JsonNode same = ofRemovals(wash).get(0);

    assertThat(same.get("n").asInt()).isEqualTo(9);
    assertThat(same.get("effectiveFrom").asText()).isEqualTo(at(6).toString());
    assertThat(same.get("centre").asDouble()).isCloseTo(mean(2, 11), within(1e-12));
  }

  @Test
  void leaveOutTheSameSamples() {
    Wash wash = recorded(0);
    String out = wash.points("washed").get(4).get("result").asText();
    adopt(
        wash,
        "{\"baseline\": {\"first\": 12}, \"exclude\": [{\"result\": \"%s\", \"cause\": \"unsettled\"}]}"
            .formatted(out));
    JsonNode same = ofRemovals(wash).get(0);

    assertThat(same.get("n").asInt()).isEqualTo(11);
    assertThat(same.at("/excluded/0/cause").asText()).isEqualTo("unsettled");
    assertThat(same.at("/excluded/0/result"))
        .isEqualTo(wash.points("washed-removal").get(4).get("result"));
    double expected = (12 * mean(0, 12) - logarithms(4, 5)[0]) / 11;
    assertThat(same.get("centre").asDouble()).isCloseTo(expected, within(1e-12));
  }

  @Test
  void areNotLeftOutForASampleWithoutInlet() {
    Wash wash = recorded(2);
    String out = wash.points("washed").get(1).get("result").asText();
    adopt(
        wash,
        "{\"baseline\": {\"first\": 12}, \"exclude\": [{\"result\": \"%s\", \"cause\": \"unsettled\"}]}"
            .formatted(out));

    assertThat(ofRemovals(wash).at("/0/n").asInt()).isEqualTo(10);
    assertThat(ofRemovals(wash).at("/0/excluded")).isEmpty();
  }

  @Test
  void stayAwayWhereTooFewBatchesHaveBothSides() {
    Wash wash = recorded(5);
    JsonNode adopted = adopt(wash, "{\"baseline\": {\"first\": 12}}");

    assertThat(adopted.get("n").asInt()).isEqualTo(12);
    assertThat(adopted.at("/diagnostics/advice").toString())
        .contains("Adopt limits of stream washed-removal by themselves", "at least 8");
    assertThat(ofRemovals(wash)).isEmpty();
    assertThat(json(200, get(wash.path + "washed/limits/1")).at("/diagnostics/advice"))
        .isEqualTo(adopted.at("/diagnostics/advice"));
    json(
        201,
        post(
            wash.path + "washed-removal/limits", "{\"given\": {\"centre\": 2.3, \"sigma\": 0.1}}"));
  }

  @Test
  void areEstimatedOnceMoreAsPlanned() {
    Wash wash = recorded(0);
    adopt(wash, "{\"baseline\": {\"first\": 10}, \"reestimateAt\": [13]}");
    wash.record("crude", "K-12", 24, 500);
    wash.record("washed", "K-12", 25, 50);

    JsonNode planned = ofRemovals(wash).get(1);
    assertThat(planned.get("origin").asText()).isEqualTo("planned");
    assertThat(planned.get("n").asInt()).isEqualTo(13);
  }

  @Test
  void areNotGivenWithThoseOfTheStream() {
    Wash wash = recorded(0);
    adopt(wash, "{\"given\": {\"centre\": 50, \"sigma\": 5}}");

    assertThat(ofRemovals(wash)).isEmpty();
  }

  @Test
  void ofTheInletAreItsOwnAffair() {
    Wash wash = recorded(0);
    json(201, post(wash.path + "crude/limits", "{\"baseline\": {\"first\": 10}}"));

    assertThat(ofRemovals(wash)).isEmpty();
  }

  /** A feed twice as soapy that leaves twice as soapy is no worse wash; a worse wash is. */
  @Test
  void tellAWorseWashFromASoapierFeed() {
    Wash wash = recorded(0);
    adopt(wash, "{\"baseline\": {\"first\": 12}}");
    wash.record("crude", "K-20", 40, 1040);
    wash.record("washed", "K-20", 41, 104);
    assertThat(signals(wash, "washed").findValuesAsText("rule")).contains("beyond-limits");
    assertThat(signals(wash, "washed-removal")).isEmpty();
    wash.record("crude", "K-21", 42, 500);
    wash.record("washed", "K-21", 43, 95);

    JsonNode signal = signals(wash, "washed-removal").get(0);
    assertThat(signal.get("rule").asText()).isEqualTo("beyond-limits");
    assertThat(signal.get("side").asText()).isEqualTo("low");
    // ln(500 / 95) = 1.6607
    assertThat(signal.get("text").asText())
        .startsWith("Removal: Washed fuel, batch K-21: one result beyond a control limit")
        .contains("(1.661, centre");
  }

  private static JsonNode signals(Wash wash, String stream) {
    return json(200, get("/signals?line=%s&stream=%s".formatted(wash.line, stream))).get("items");
  }

  @Test
  void comeFromTwentyRemovalsByThemselves() {
    Wash wash = Wash.watched();
    for (int i = 0; i < 20; i++) {
      wash.record("crude", "K-" + i, 2 * i, INLETS[i % 12]);
      wash.record("washed", "K-" + i, 2 * i + 1, OUTLETS[(5 * i) % 12]);
    }

    assertThat(ofRemovals(wash).at("/0/status").asText()).isEqualTo("trial");
    String svg = get(wash.path + "washed-removal/charts/individuals.svg").asString();
    assertThat(svg).contains("chart of removal, ").doesNotContain("removal, 1");
  }
}
