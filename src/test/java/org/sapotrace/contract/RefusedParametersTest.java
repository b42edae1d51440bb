package org.sapotrace.contract;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.ContractFilter;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class RefusedParametersTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          /lines/QUAY                          | line must be 1 to 63 lower-case letters
          /lines/quay;a=b                      | Parameters stand behind a question mark
          %s/charts/individuals.json?last=0    | last must be a whole number of at least 1.
          %s/charts/individuals.json?last=%%2B1| must be a whole number.
          %s/charts/individuals.png?width=%%2B500 | must be a whole number.
          %s/limits/%%D9%%A1                   | must be a whole number.
          """)
  void saysWhichParameterCannotBeUsed(String address, String detail) {
    String target = address.formatted(Api.TestStream.soap().path);

    JsonNode problem = Api.json(400, given().urlEncodingEnabled(false).get("/api/v1" + target));

    assertThat(problem.path("type").asText()).isEqualTo("/problems/bad-parameter");
    assertThat(problem.path("detail").asText()).contains(detail);
  }

  @Test
  void takesNoOtherWordForTrue() {
    Api.TestStream stream = Api.TestStream.soap();
    String row = "{\"batch\": \"B\", \"sampledAt\": \"2026-03-04T09:20:00Z\", \"values\": [1]}";

    Api.json(
        400,
        given()
            .contentType("application/x-ndjson")
            .body(row.getBytes(StandardCharsets.UTF_8))
            .post("/api/v1" + stream.path + "/imports?atomic=yes"));

    assertThat(Api.json(200, Api.get(stream.path + "/results")).path("items")).isEmpty();
  }

  @Test
  void answersNoRecordAsAPicture() {
    String line = "/api/v1/lines/" + Api.TestStream.soap().line;

    Api.json(406, given().accept("image/png").get(line));
  }

  @Test
  void isWatchedByTheContract() {
    assertThat(RestAssured.filters()).hasAtLeastOneElementOfType(ContractFilter.class);
  }
}
