package org.sapotrace;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Optional;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.embedded.EmbeddedDatabase;
import org.sapotrace.embedded.RunningDatabase;
import org.sapotrace.refusal.Refusal;

/** Does errands on the database that the service has or would have. */
final class ErrandRun {

  private static final int NOT_DONE = 2;

  private ErrandRun() {}

  /**
   * Does an errand, and says in one sentence what came of it.
   *
   * @return the status to exit with: that of the outcome, or 2 where it could not be done
   */
  static int of(Errand.Asked asked, Config settings) {
    try {
      Errand.Outcome outcome = onDatabase(asked, settings);
      System.out.println(outcome.sentence());
      return outcome.status();
    } catch (Refusal refused) {
      System.err.println("Nothing was done. " + refused.getMessage());
    } catch (SQLException failed) {
      System.err.println("Nothing was done. The database says: " + failed.getMessage());
    }
    return NOT_DONE;
  }

  private static Errand.Outcome onDatabase(Errand.Asked asked, Config settings)
      throws SQLException {
    Optional<String> url = settings.getOptionalValue(Sapotrace.JDBC_URL, String.class);
    if (url.isPresent()) {
      try (Connection connection = ExistingDatabase.connect(url.get(), settings)) {
        return asked.run(connection);
      }
    }
    Path directory = Sapotrace.dataDirectory(settings);
    if (asked.needsData() && !EmbeddedDatabase.isIn(directory)) {
      throw Refusal.impossible(
          "There is no data in %s: set SAPOTRACE_DATA_DIRECTORY to where the service keeps it."
              .formatted(directory));
    }
    Optional<RunningDatabase> running = RunningDatabase.on(directory);
    if (running.isPresent()) {
      RunningDatabase there = running.get();
      return onEmbedded(asked, there.jdbcUrl(), there.username(), there.password());
    }
    try (EmbeddedDatabase started = EmbeddedDatabase.start(directory)) {
      return onEmbedded(asked, started.jdbcUrl(), started.username(), started.password());
    }
  }

  private static Errand.Outcome onEmbedded(
      Errand.Asked asked, String url, String username, String password) throws SQLException {
    try (Connection connection = DriverManager.getConnection(url, username, password)) {
      return asked.run(connection);
    }
  }
}
