package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.controlchart.Published;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class CapabilityChartTest {

  private static final String SPECIFIED =
      """
      {"name": "Fuel", "samplingPoint": "other", "measurand": "other", "unit": "1",
       "specification": {"upper": %s}, "chart": {"rules": ["beyond-limits"], "ewma": null}}
      """;

  // By hand from the definition; the bound computed: pure code is tested against published figures.
  @Test
  void isToldWithItsBound() {
    TestStream stream = specified(12.5);
    double[] values = normal(40);
    record(stream, values);
    stream.adopt("{\"baseline\": {\"first\": 40}}");
    JsonNode found = capability(stream, 200);

    double mean = Arrays.stream(values).average().orElseThrow();
    double s = Math.sqrt(Arrays.stream(values).map(x -> (x - mean) * (x - mean)).sum() / 39);
    assertThat(found.get("kind").asText()).isEqualTo("capability");
    assertThat(found.get("n").asInt()).isEqualTo(40);
    assertThat(found.get("cpu").asDouble()).isCloseTo((12.5 - mean) / (3 * s), within(1e-12));
    assertThat(found.get("cpl").isNull()).isTrue();
    assertThat(found.get("cpk")).isEqualTo(found.get("cpu"));
    assertThat(found.get("lowerBound").asDouble())
        .isBetween(0.6 * found.get("cpu").asDouble(), 0.95 * found.get("cpu").asDouble());
    assertThat(found.get("confidence").asDouble()).isEqualTo(0.95);
    assertThat(found.get("method").asText()).isEqualTo("normal");
    assertThat(found.get("boundMethod").asText()).isEqualTo("noncentral-t");
    assertThat(found.at("/percentiles/high").asDouble()).isCloseTo(mean + 3 * s, within(1e-12));
    assertThat(found.at("/specification/upper").asDouble()).isEqualTo(12.5);
    assertThat(found.get("summary").asText()).contains("Cpu ").contains("95 % confidence");
  }

  // worked-examples.json N6: the power is 0.2759, and the results are far from normal.
  @Test
  void usesPercentilesOfSkewedResults() {
    TestStream stream = specified(0.5);
    record(stream, Published.series("nist_boxcox"));
    stream.adopt("{\"given\": {\"centre\": 0.13, \"sigma\": 0.1}}");
    JsonNode found = capability(stream, 200);

    assertThat(found.get("method").asText()).isEqualTo("percentiles");
    assertThat(found.get("boundMethod").asText()).isEqualTo("bissell");
    assertThat(found.get("boxCoxLambda").asDouble()).isCloseTo(0.275937279, within(1e-8));
    double median = found.at("/percentiles/median").asDouble();
    double high = found.at("/percentiles/high").asDouble();
    assertThat(found.get("cpu").asDouble())
        .isCloseTo((0.5 - median) / (high - median), within(1e-12));
  }

  @Test
  void looksAtThePresentPhaseOnly() {
    TestStream stream = specified(40);
    record(stream, Arrays.stream(normal(35)).map(x -> x + 20).toArray());
    stream.adopt("{\"baseline\": {\"first\": 35}}");
    record(stream, normal(32));
    stream.adopt("{\"baseline\": {\"last\": 32}}");

    assertThat(capability(stream, 200).get("n").asInt()).isEqualTo(32);
    assertThat(capability(stream, 200).get("limitsRevision").asInt()).isEqualTo(3);
  }

  @Test
  void isRefusedWhereItWouldMislead() {
    TestStream stream = specified(20);
    assertRefused(stream, "Adopt limits first");
    record(stream, normal(29));
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 1}}");
    assertRefused(stream, "at least 30 results, not 29");
    record(stream, 10.3, 14);
    assertRefused(stream, "The chart signals (one result beyond a control limit)");
  }

  @Test
  void needsASpecification() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    record(stream, normal(30));
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 5}}");
    assertRefused(stream, "has none");
  }

  @Test
  void isShownAsAPictureThatSaysTheSame() {
    TestStream stream = specified(20);
    assertThat(json(422, get(stream.path + "/charts/capability.svg")).get("detail").asText())
        .contains("Adopt limits first");
    record(stream, normal(30));
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 5}}");
    String svg = get(stream.path + "/charts/capability.svg?width=600&height=360").asString();

    assertThat(svg)
        .contains("<title>" + capability(stream, 200).get("summary").asText() + "</title>")
        .contains(">specification 20</text>", "30 results", "none beyond the specification");
    json(400, get(stream.path + "/charts/capability.png?width=10"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"json", "png", "svg", "pdf"})
  void isNotSentAgainWhileItIsTheSame(String form) {
    TestStream stream = specified(20);
    record(stream, normal(30));
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 5}}");
    String path = "/api/v1" + stream.path + "/charts/capability." + form;
    String tag = RestAssured.get(path).header("ETag");

    assertThat(RestAssured.given().header("If-None-Match", tag).get(path).statusCode())
        .isEqualTo(304);
  }

  private static void assertRefused(TestStream stream, String reason) {
    assertThat(capability(stream, 422).get("detail").asText()).contains(reason);
  }

  private static JsonNode capability(TestStream stream, int status) {
    return json(status, get(stream.path + "/charts/capability.json"));
  }

  private static TestStream specified(double upper) {
    return TestStream.with(SPECIFIED.formatted(upper));
  }

  private static void record(TestStream stream, double... values) {
    for (double value : values) {
      stream.record(value);
    }
  }

  /** Around 10 with standard deviation 1. */
  private static double[] normal(int count) {
    SplittableRandom random = new SplittableRandom(6);
    return DoubleStream.generate(() -> 10 + random.nextGaussian()).limit(count).toArray();
  }
}
