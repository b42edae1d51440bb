package org.sapotrace.contract;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.io.IOException;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Contract;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class ServedContractTest {

  @Test
  void isTheFileInYaml() {
    Response answer = given().get("/q/openapi");

    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.contentType()).startsWith("application/yaml");
    assertSame(Contract.yaml(answer.asString()));
  }

  @Test
  void isTheFileInJson() throws IOException {
    Response answer = given().get("/q/openapi?format=json");

    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.contentType()).startsWith("application/json");
    assertSame(new ObjectMapper().readTree(answer.asByteArray()));
  }

  private static void assertSame(JsonNode served) {
    Set<String> expected = Leaves.of(Contract.get().document());
    Set<String> found = Leaves.of(served);
    assertThat(difference(expected, found)).as("in the file and not served").isEmpty();
    assertThat(difference(found, expected)).as("served and not in the file").isEmpty();
  }

  private static Set<String> difference(Set<String> these, Set<String> those) {
    Set<String> rest = new TreeSet<>(these);
    rest.removeAll(those);
    return rest;
  }
}
