package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Whoever is told a bound and keeps to it is taken. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ToldBoundsTest {

  private TestStream stream;

  @BeforeEach
  void setUp() {
    stream = TestStream.soap();
  }

  private JsonNode titrate(int status, String titrant, String sampleG, String more) {
    return json(
        status,
        post(
            stream.path + "/titrations",
            """
            {"batch": "K-1", "sampledAt": "2026-03-04T09:20:00Z", "titrant": {"normality": %s}%s,
             "balance": "balance-1mg", "replicates": [{"titrantMl": 0.01, "sampleG": %s}]}
            """
                .formatted(titrant, more, sampleG)));
  }

  @Test
  void areThoseOfATestPortion() {
    for (String grams : List.of("0", "-1", "0.00001", "1e9")) {
      assertThat(titrate(422, "0.01", grams, "").at("/errors/0").toString())
          .contains("it must be from 0.05 to 1000 g", "#/replicates/0/sampleG");
    }
    titrate(201, "0.01", "0.05", "");
    titrate(201, "0.01", "1000", "");
  }

  @Test
  void areThoseOfATitrant() {
    for (String normality : List.of("0", "-1", "1e9")) {
      assertThat(titrate(422, normality, "40", "").at("/errors/0").toString())
          .contains("it must be from 0.0005 to 2 mol/L", "#/titrant/normality");
    }
    titrate(201, "0.0005", "40", "");
    titrate(201, "2", "40", "");
  }

  @Test
  void areThoseOfAResultOnBothSides() {
    for (String value : List.of("-2000000", "2000000")) {
      assertThat(record(422, value).at("/errors/0/detail").asText())
          .isEqualTo(
              "No sample has %s mg/kg; what is measured of one is from -1000000 to 1000000 mg/kg: check the value and its unit."
                  .formatted(value));
    }
    record(201, "-1000000");
    record(201, "1000000");
  }

  private JsonNode record(int status, String value) {
    return json(
        status,
        post(
            stream.path + "/results",
            "{\"batch\": \"K-1\", \"sampledAt\": \"2026-03-04T09:20:00Z\", \"values\": [%s]}"
                .formatted(value)));
  }

  @Test
  void areToldOfAllThatWentThroughAtOnce() {
    JsonNode problem =
        titrate(
            422,
            "0.01",
            "40",
            ", \"throughput\": {\"litres\": -1, \"bedVolumes\": 2e9}, \"inletMgPerKg\": -5");

    List<String> pointers = new ArrayList<>();
    problem.get("errors").forEach(error -> pointers.add(error.get("pointer").asText()));
    assertThat(pointers)
        .containsExactly("#/throughput/litres", "#/throughput/bedVolumes", "#/inletMgPerKg");
    assertThat(problem.at("/errors/1/detail").asText())
        .isEqualTo("What went through is 0 to 1 000 000 000 bed volumes: check the figure.");
    assertThat(titrate(422, "0.01", "40", ", \"throughput\": {}").at("/errors/0/pointer").asText())
        .isEqualTo("#/throughput");
  }
}
