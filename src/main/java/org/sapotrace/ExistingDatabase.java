package org.sapotrace;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Properties;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.refusal.Refusal;

/** A PostgreSQL that somebody else runs. */
final class ExistingDatabase {

  private static final int OLDEST_VERSION = 15;

  private ExistingDatabase() {}

  /**
   * Tries the configured database, so that a mistake in the configuration is told in a sentence.
   *
   * @throws Refusal when it cannot be connected to, or is older than PostgreSQL 15
   */
  static void check(String url, Config settings) {
    try (Connection connection = connect(url, settings)) {
      refuseOlder(connection.getMetaData().getDatabaseMajorVersion());
    } catch (SQLException failed) {
      throw unusable(url, failed);
    }
  }

  /**
   * A connection to the configured database, for whoever needs no more than that.
   *
   * @throws Refusal when it cannot be connected to
   */
  static Connection connect(String url, Config settings) {
    Properties properties = new Properties();
    properties.setProperty("loginTimeout", "10");
    settings
        .getOptionalValue("quarkus.datasource.username", String.class)
        .ifPresent(name -> properties.setProperty("user", name));
    settings
        .getOptionalValue("quarkus.datasource.password", String.class)
        .ifPresent(password -> properties.setProperty("password", password));
    try {
      return DriverManager.getConnection(url, properties);
    } catch (SQLException failed) {
      throw unusable(url, failed);
    }
  }

  private static Refusal unusable(String url, SQLException failed) {
    // Some messages repeat the address, which may hold a password; further lines are for
    // PostgreSQL's developers.
    String message = String.valueOf(failed.getMessage()).replace(url, "that address");
    String reason = message.lines().findFirst().orElse("").replaceFirst("\\.$", "");
    return Refusal.impossible(
        """
        The configured database cannot be used: %s. Check that it runs, and \
        QUARKUS_DATASOURCE_JDBC_URL (jdbc:postgresql://host:5432/database), \
        QUARKUS_DATASOURCE_USERNAME and QUARKUS_DATASOURCE_PASSWORD."""
            .formatted(reason));
  }

  private static void refuseOlder(int version) {
    if (version < OLDEST_VERSION) {
      throw Refusal.impossible(
          "The configured database is a PostgreSQL %d: Sapotrace needs %d or newer."
              .formatted(version, OLDEST_VERSION));
    }
  }
}
