package org.sapotrace.contract;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.specification.RequestSpecification;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class RefusedRepeatTest {

  private static final String RESULT =
      "{\"batch\": \"K-0142\", \"sampledAt\": \"2026-03-04T09:20:00Z\", \"values\": [31.2]}";

  @Test
  void refusesAKeyThatItWouldNotHonourAndRecordsNothing() {
    Api.TestStream stream = Api.TestStream.soap();
    String results = stream.path + "/results";

    JsonNode problem = Api.json(422, keyed().body(RESULT).post("/api/v1" + results));

    assertThat(problem.path("type").asText()).isEqualTo("/problems/not-yet");
    assertThat(problem.path("detail").asText()).contains("leave Idempotency-Key out");
    assertThat(Api.json(200, Api.get(results)).path("items")).isEmpty();
  }

  @Test
  void letsAKeyPassWhereARepeatChangesNothing() {
    Api.json(
        201,
        keyed()
            .body("{\"name\": \"Repeated\", \"alkali\": \"sodium\"}")
            .put("/api/v1/lines/repeated"));
  }

  private static RequestSpecification keyed() {
    return given().contentType("application/json").header("Idempotency-Key", "\"8e03978e\"");
  }
}
