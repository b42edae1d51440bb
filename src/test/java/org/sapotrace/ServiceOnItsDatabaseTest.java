package org.sapotrace;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.is;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.SQLException;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class ServiceOnItsDatabaseTest {

  @Inject DataSource dataSource;

  @Test
  void isReady() {
    given().get("/q/health/ready").then().statusCode(200).body("status", is("UP"));
  }

  @Test
  void isTestedOnThePostgresqlThatItBrings() throws SQLException {
    try (Connection connection = dataSource.getConnection()) {
      assertThat(connection.getMetaData().getDatabaseMajorVersion()).isEqualTo(18);
      assertThat(connection.getMetaData().getUserName()).isEqualTo("sapotrace");
    }
  }
}
