package org.sapotrace.bench;

import static io.restassured.RestAssured.given;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.concurrent.CompletableFuture;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Imports into a stream that somebody else changes after its rows were looked at. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ImportMeanwhileTest {

  private static final String ROWS =
      """
      {"batch": "A", "sampledAt": "2026-03-01T09:00:00Z", "values": [30]}
      {"batch": "B", "sampledAt": "2026-03-02T09:00:00Z", "titrant": {"normality": 0.01}, "replicates": [{"titrantMl": 0.9, "sampleG": 40}]}
      {"batch": "C", "sampledAt": "2026-03-03T09:00:00Z", "values": [31]}
      """;

  @Inject DataSource database;

  @Test
  void recordsWhatIsStillTakenAndListsTheRest() throws SQLException {
    TestStream stream = TestStream.soap();
    JsonNode answer = json(200, importedWhileRedefined(stream, false));

    assertThat(answer.get("accepted").asInt()).isEqualTo(2);
    assertThat(answer.get("refused").findValuesAsText("row")).containsExactly("2");
    assertThat(answer.at("/refused/0/problem/detail").asText()).contains("no titration");
    assertThat(json(200, get(stream.path + "/results")).get("items").findValuesAsText("batch"))
        .containsExactly("A", "C");
  }

  @Test
  void recordsNothingWhereAllOrNoneIsWanted() throws SQLException {
    TestStream stream = TestStream.soap();
    JsonNode answer = json(200, importedWhileRedefined(stream, true));

    assertThat(answer.get("accepted").asInt()).isZero();
    assertThat(answer.get("refused").findValuesAsText("row")).containsExactly("2");
    assertThat(json(200, get(stream.path + "/results")).get("items")).isEmpty();
  }

  /**
   * The answer to an import that waits for a stream which, when it is free, takes no titrations.
   */
  private Response importedWhileRedefined(TestStream stream, boolean atomic) throws SQLException {
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement()) {
      connection.setAutoCommit(false);
      statement.executeUpdate(
          "update stream set measurand = 'other' where line = '%s'".formatted(stream.line));
      var answer =
          CompletableFuture.supplyAsync(
              () ->
                  given()
                      .contentType("application/x-ndjson")
                      .body(ROWS.getBytes(UTF_8))
                      .post("/api/v1" + stream.path + "/imports?atomic=" + atomic));
      await().until(() -> isSomebodyWaiting(statement));
      connection.commit();
      return answer.join();
    }
  }

  private static boolean isSomebodyWaiting(Statement statement) throws SQLException {
    try (ResultSet waiting =
        statement.executeQuery(
            "select count(*) from pg_stat_activity where wait_event_type = 'Lock' and pg_backend_pid() = any(pg_blocking_pids(pid))")) {
      return waiting.next() && waiting.getInt(1) > 0;
    }
  }
}
