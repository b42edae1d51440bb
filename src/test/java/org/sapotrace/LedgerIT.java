package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.embedded.EmbeddedDatabase;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;

/** Has the ledger checked by the packaged service, which does not serve meanwhile. */
class LedgerIT {

  @TempDir Path directory;

  @Test
  void isCheckedOnTheCommandLine() throws SQLException {
    Setup setup = Setup.on(directory.resolve("data"));
    try (RunningService service = setup.start()) {
      put(service, "{\"name\": \"Harbour line\", \"alkali\": \"sodium\"}");
      put(service, "{\"name\": \"Harbour line, renamed\", \"alkali\": \"sodium\"}");
      // The head is made before it is answered.
      assertThat(service.get("/api/v1/ledger").body()).contains("line/harbour");
      assertThat(said(setup, 0)).startsWith("The ledger is intact: 2 entries.");
    }

    assertThat(said(setup, 0))
        .matches(
            "The ledger is intact: 2 entries\\. The last head is number [12], [0-9a-f]{64}\\.\\R");

    tamper();

    assertThat(said(setup, 1))
        .isEqualToNormalizingNewlines(
            "The ledger is broken. Entry 2 of line/harbour:"
                + " The entry was changed: its hash belongs to another.\n");
  }

  @Test
  void isNotCheckedWhereNothingIs() {
    Path none = directory.resolve("none");

    assertThat(said(Setup.on(none), 2)).contains("There is no data in " + none);
    assertThat(none).doesNotExist();
  }

  private static String said(Setup setup, int status) {
    try (RunningService check = setup.withArguments("--verify-ledger").launch()) {
      assertThat(check.awaitExit()).as(check.output()).isEqualTo(status);
      return check.output();
    }
  }

  private void tamper() throws SQLException {
    try (EmbeddedDatabase database = EmbeddedDatabase.start(directory.resolve("data"));
        Connection connection = database.connect();
        Statement statement = connection.createStatement()) {
      statement.execute("grant update on ledger_entry to current_user");
      statement.execute("alter table ledger_entry disable trigger user");
      statement.execute("update ledger_entry set actor = 'nobody' where seq = 2");
    }
  }

  private static void put(RunningService service, String line) {
    HttpResponse<String> answer =
        service.send(
            HttpRequest.newBuilder(service.baseUrl().resolve("/api/v1/lines/harbour"))
                .header("Content-Type", "application/json")
                .PUT(HttpRequest.BodyPublishers.ofString(line))
                .build());
    assertThat(answer.statusCode()).isIn(200, 201);
  }
}
