package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/**
 * The flow rates of NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, through the
 * interface. The handbook prints limits with d2 rounded to 1.128; the exact ones are computed with
 * d2 = 2/√π.
 */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class FlowRateExampleTest {

  private static final double[] FLOW_RATES = {
    49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1
  };

  @Test
  void givesTheLimitsOfTheHandbook() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    DoubleStream.of(FLOW_RATES).forEach(stream::record);

    JsonNode limits = stream.adopt("{\"baseline\": {\"first\": 10}}");

    // The handbook: mean 50.81, limits 55.8041 and 45.8159.
    assertThat(limits.get("centre").asDouble()).isCloseTo(50.81, within(1e-12));
    assertThat(limits.get("upper").asDouble()).isCloseTo(55.8041, within(2e-3));
    assertThat(limits.get("lower").asDouble()).isCloseTo(45.8159, within(2e-3));
    // Exact d2.
    assertThat(limits.get("upper").asDouble()).isCloseTo(55.8024116801, within(1e-9));
    assertThat(limits.get("lower").asDouble()).isCloseTo(45.8175883199, within(1e-9));
    assertThat(limits.get("dispersionUpper").asDouble()).isCloseTo(6.13382104844, within(1e-9));
  }

  @Test
  void chartsNoneOfThemOutOfLimits() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    DoubleStream.of(FLOW_RATES).forEach(stream::record);
    stream.adopt("{\"baseline\": {\"first\": 10}}");

    JsonNode individuals = stream.chart("individuals");
    assertThat(individuals.get("points")).hasSize(10);
    assertThat(individuals.get("points"))
        .allSatisfy(point -> assertThat(point.get("signals")).isEmpty());

    // The handbook's moving ranges: 2.0, 2.3, 1.4, 3.5, 3.4, 1.4, 0.2, 1.2, 1.5.
    double[] ranges = {2.0, 2.3, 1.4, 3.5, 3.4, 1.4, 0.2, 1.2, 1.5};
    JsonNode charted = stream.chart("moving-range").get("points");
    assertThat(charted.get(0).get("plotted").isNull()).isTrue();
    for (int i = 0; i < ranges.length; i++) {
      assertThat(charted.get(i + 1).get("plotted").asDouble()).isCloseTo(ranges[i], within(1e-12));
    }
  }
}
