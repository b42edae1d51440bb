package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Charts on other scales than the linear one, through the interface. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ScaleTest {

  private static final Offset<Double> ROUNDING = within(1e-12);

  private static TestStream charted(String scale) {
    return TestStream.charted("{\"scale\": \"%s\", \"cusum\": {}}".formatted(scale));
  }

  /** Limits of the logarithms, ln 20 ± 3 * 0.1. */
  private static TestStream known() {
    TestStream stream = charted("log");
    stream.adopt("{\"given\": {\"centre\": %s, \"sigma\": 0.1}}".formatted(Math.log(20)));
    return stream;
  }

  // computed: the limits are 20 e^±0.3 = 26.99718 and 14.81636; ln 22 = ln 20 + 0.0953102.
  @Test
  void judgesByLogarithmsAndAnswersInTheUnit() {
    TestStream stream = known();
    JsonNode limits = json(200, get(stream.path + "/limits/1"));
    assertThat(limits.get("scale").asText()).isEqualTo("log");
    assertThat(limits.get("centre").asDouble()).isCloseTo(20, ROUNDING);
    assertThat(limits.get("sigma").asDouble()).isEqualTo(0.1);
    assertThat(limits.get("upper").asDouble()).isCloseTo(20 * Math.exp(0.3), ROUNDING);
    assertThat(limits.get("lower").asDouble()).isCloseTo(20 * Math.exp(-0.3), ROUNDING);
    assertThat(limits.at("/zones/twoSigma/lower").asDouble())
        .isCloseTo(20 * Math.exp(-0.2), ROUNDING);

    JsonNode control = stream.record(22).get("control");
    assertThat(control.get("upper").asDouble()).isCloseTo(26.9971761515, within(1e-9));
    assertThat(control.get("ewma").asDouble()).isCloseTo(20 * Math.pow(1.1, 0.2), ROUNDING);
    assertThat(control.get("cusumHigh").asDouble()).isCloseTo(0.953101798 - 0.5, within(1e-8));
    JsonNode point = stream.chart("individuals").at("/points/0");
    assertThat(point.get("value").asDouble()).isEqualTo(22);
    assertThat(point.get("plotted").asDouble()).isCloseTo(Math.log(22), ROUNDING);
    assertThat(point.get("z").asDouble()).isCloseTo(0.953101798, within(1e-8));
    assertThat(point.get("lower").asDouble()).isCloseTo(14.8163644136, within(1e-9));
    JsonNode average = stream.chart("ewma");
    assertThat(average.get("scale").asText()).isEqualTo("log");
    assertThat(average.at("/points/0/plotted").asDouble())
        .isCloseTo(Math.log(20) + 0.2 * Math.log(1.1), ROUNDING);
    assertThat(average.at("/points/0/upper").asDouble())
        .isCloseTo(20 * Math.exp(2.7 * 0.2 * 0.1), within(1e-10));

    JsonNode beyond = stream.record(27).get("control");
    assertThat(beyond.at("/signals/0/text").asText())
        .contains("27, centre 20, upper control limit 27");
    assertThat(stream.record(26.9).at("/control/signals").toString())
        .doesNotContain("\"beyond-limits\"");
  }

  /** A result without a logarithm is charted as it is and judged as 4 sigma below the centre. */
  @Test
  void judgesWhatHasNoLogarithmAsLow() {
    TestStream stream = known();
    JsonNode control = stream.record(0).get("control");
    assertThat(control.at("/signals/0/rule").asText()).isEqualTo("beyond-limits");
    assertThat(control.at("/signals/0/text").asText())
        .contains("0, where a log scale has no place, centre 20, lower control limit 14.82");
    assertThat(control.get("cusumLow").asDouble()).isCloseTo(3.5, within(1e-9));
    assertThat(control.get("ewma").asDouble()).isCloseTo(20 * Math.exp(-0.08), within(1e-9));
    JsonNode point = stream.chart("individuals").at("/points/0");
    assertThat(point.get("value").asDouble()).isZero();
    assertThat(point.get("plotted").isNull()).isTrue();
    assertThat(point.get("z").isNull()).isTrue();
    assertThat(get(stream.path + "/charts/individuals.svg").asString())
        .contains("at or below 0, where a log scale has no place");
  }

  @Test
  void takesLimitsFromTheLogarithmsOfABaseline() {
    double[] values = DoubleStream.of(12, 19, 31, 14, 22, 17, 41, 15, 26, 20).toArray();
    TestStream log = charted("log");
    TestStream linear = TestStream.charted("{\"cusum\": {}}");
    for (double value : values) {
      log.record(value);
      linear.record(Math.log(value));
    }
    JsonNode limits = log.adopt("{\"baseline\": {\"first\": 10}}");
    JsonNode same = linear.adopt("{\"baseline\": {\"first\": 10}}");
    for (String line : List.of("centre", "upper", "lower")) {
      assertThat(limits.get(line).asDouble())
          .isCloseTo(Math.exp(same.get(line).asDouble()), within(1e-11));
    }
    for (String line : List.of("sigma", "dispersionCentre", "dispersionUpper")) {
      assertThat(limits.get(line)).isEqualTo(same.get(line));
    }
    for (String figure : List.of("normality", "autocorrelation")) {
      assertThat(limits.at("/diagnostics/" + figure)).isEqualTo(same.at("/diagnostics/" + figure));
    }
    assertThat(log.chart("cusum").findValues("cusumHigh"))
        .isEqualTo(linear.chart("cusum").findValues("cusumHigh"));
    assertThat(log.chart("moving-range").findValues("plotted"))
        .isEqualTo(linear.chart("moving-range").findValues("plotted"));
  }

  @Test
  void refusesABaselineThatHasNoLogarithms() {
    TestStream stream = charted("log");
    for (double value : new double[] {1, 2, 0, 3, 2, -1, 4, 2, 3}) {
      stream.record(value);
    }
    JsonNode problem = json(422, post(stream.path + "/limits", "{\"baseline\": {\"first\": 9}}"));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/baseline");
    assertThat(problem.get("detail").asText())
        .contains("2 of the 9 results of the baseline are at or below 0")
        .contains("set chart.scale to linear");
    JsonNode given =
        json(422, post(stream.path + "/limits", "{\"given\": {\"centre\": 800, \"sigma\": 1}}"));
    assertThat(given.get("detail").asText()).contains("natural logarithms");
  }

  @Test
  void hasLinearTrialLimitsWhereALogScaleHasNoPlace() {
    TestStream stream = charted("log");
    for (int i = 0; i < 20; i++) {
      stream.record(i % 2 == 0 ? 3 : i == 1 ? 0 : 4);
    }
    JsonNode limits = json(200, get(stream.path + "/limits/1"));
    assertThat(limits.get("status").asText()).isEqualTo("trial");
    assertThat(limits.get("scale").asText()).isEqualTo("linear");
  }

  // The power is that of NIST/SEMATECH e-Handbook 6.5.2, by maximum likelihood;
  // worked-examples.json
  // N6: 0.275937279.
  @Test
  void findsThePowerOfABoxCoxScaleInTheBaseline() {
    double[] values = {
      0.15, 0.09, 0.18, 0.1, 0.05, 0.12, 0.08, 0.05, 0.08, 0.1, 0.07, 0.02, 0.01, 0.1, 0.1, 0.1,
      0.02, 0.1, 0.01, 0.4, 0.1, 0.05, 0.03, 0.05, 0.15, 0.1, 0.15, 0.09, 0.08, 0.18, 0.1, 0.2,
      0.11, 0.3, 0.02, 0.2, 0.2, 0.3, 0.3, 0.4, 0.3, 0.05
    };
    TestStream stream = charted("box-cox");
    DoubleStream.of(values).forEach(stream::record);
    JsonNode limits =
        stream.adopt("{\"baseline\": {\"first\": 42}, \"dispersion\": \"standard-deviation\"}");
    double lambda = limits.get("boxCoxLambda").asDouble();
    assertThat(lambda).isCloseTo(0.275937279, within(1e-5));
    double mean =
        DoubleStream.of(values)
            .map(x -> (Math.pow(x, lambda) - 1) / lambda)
            .average()
            .orElseThrow();
    assertThat(limits.get("centre").asDouble())
        .isCloseTo(Math.pow(1 + lambda * mean, 1 / lambda), within(1e-12));
    assertThat(limits.get("upper").asDouble()).isGreaterThan(0.4);
    double floor =
        (Math.pow(limits.get("centre").asDouble(), lambda) - 1) / lambda
            - 3 * limits.get("sigma").asDouble();
    assertThat(limits.get("lower").asDouble())
        .isCloseTo(Math.pow(1 + lambda * floor, 1 / lambda), within(1e-12));
    JsonNode point = stream.chart("individuals").at("/points/0");
    assertThat(point.get("plotted").asDouble())
        .isCloseTo((Math.pow(0.15, lambda) - 1) / lambda, within(1e-12));

    json(422, post(stream.path + "/limits", "{\"given\": {\"centre\": 0, \"sigma\": 1}}"));
  }

  @Test
  void keepsTheScaleOfLimitsThatAreThere() {
    TestStream stream = known();
    stream.record(22);
    json(
        200,
        put(
            stream.path,
            """
            {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
             "chart": {"cusum": {}}}
            """));
    assertThat(json(200, get(stream.path)).at("/chart/scale").asText()).isEqualTo("linear");
    assertThat(json(200, get(stream.path + "/limits")).get("items")).hasSize(1);
    assertThat(stream.chart("individuals").get("scale").asText()).isEqualTo("log");
    JsonNode next = stream.adopt("{\"given\": {\"centre\": 20, \"sigma\": 2}}");
    assertThat(next.get("scale").asText()).isEqualTo("linear");
    assertThat(next.get("upper").asDouble()).isEqualTo(26);
  }

  /** Skewed results cross the limits of a log scale as seldom as they should. */
  @Test
  void recommendsWhatItThenDoes() {
    SplittableRandom random = new SplittableRandom(4);
    TestStream stream = TestStream.charted("{\"ewma\": null}");
    for (int i = 0; i < 60; i++) {
      stream.record(Math.round(1000 * Math.exp(3 + 0.6 * random.nextGaussian())) / 1000.0);
    }
    JsonNode linear = stream.adopt("{\"baseline\": {\"first\": 60}}");
    assertThat(linear.at("/diagnostics/advice").toString())
        .contains("Chart this stream on a log scale");
    json(
        200,
        put(
            stream.path,
            """
            {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
             "chart": {"ewma": null, "scale": "log"}}
            """));
    JsonNode log = stream.adopt("{\"baseline\": {\"first\": 60}}");
    assertThat(log.at("/diagnostics/advice").toString()).doesNotContain("scale:");
    assertThat(log.at("/diagnostics/normality/pValue").asDouble()).isGreaterThan(0.05);
    assertThat(log.at("/diagnostics/boxCox")).isEqualTo(linear.at("/diagnostics/boxCox"));
  }
}
