package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/**
 * The conventions of the run rules, one small vector each, through the interface: recorded one by
 * one under given limits of centre 0 and sigma 1. Source: run_rule_vectors.json, computed by hand
 * from the conventions that the file states.
 */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class RunRuleVectorsTest {

  @ParameterizedTest(name = "{0}")
  @MethodSource("vectors")
  void signalsWhereTheVectorSays(String why, JsonNode vector) {
    String rule = vector.get("rule").asText();
    TestStream stream = TestStream.other("[\"" + rule + "\"]");
    stream.adopt("{\"given\": {\"centre\": 0, \"sigma\": 1}}");

    List<Integer> signalled = new ArrayList<>();
    int index = 0;
    for (JsonNode z : vector.get("z")) {
      index++;
      if (!stream.record(z.asDouble()).at("/control/signals").isEmpty()) {
        signalled.add(index);
      }
    }

    JsonNode first = vector.get("first_signal");
    if (first.isNull()) {
      assertThat(signalled).isEmpty();
    } else {
      assertThat(signalled).first().isEqualTo(first.asInt());
    }
  }

  static Stream<Object[]> vectors() throws IOException {
    try (InputStream file =
        RunRuleVectorsTest.class.getResourceAsStream("/control-charts/run_rule_vectors.json")) {
      JsonNode vectors = new ObjectMapper().readTree(file).get("vectors");
      return StreamSupport.stream(vectors.spliterator(), false)
          .map(
              vector ->
                  new Object[] {
                    vector.get("rule").asText() + ": " + vector.get("why").asText(), vector
                  })
          .toList()
          .stream();
    }
  }
}
