package org.sapotrace;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Optional;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.embedded.EmbeddedDatabase;
import org.sapotrace.ledger.LedgerCheck;
import org.sapotrace.ledger.Verification;
import org.sapotrace.refusal.Refusal;

/** Checks the ledger where the service does not run, on its database. */
final class LedgerVerification {

  /** Asks for it on the command line. */
  static final String ARGUMENT = "--verify-ledger";

  private static final int BROKEN = 1;
  private static final int UNKNOWN = 2;

  private LedgerVerification() {}

  /**
   * Checks the ledger, and says in one sentence what was found.
   *
   * @return the status to exit with: 0 for an intact ledger, 1 for a broken one, 2 where that is
   *     not known
   */
  static int run(Config settings) {
    try {
      return ofConfigured(settings);
    } catch (Refusal refused) {
      System.err.println("The ledger is not checked. " + refused.getMessage());
    } catch (SQLException failed) {
      System.err.println(
          "The ledger is not checked. The database says: " + String.valueOf(failed.getMessage()));
    }
    return UNKNOWN;
  }

  private static int ofConfigured(Config settings) throws SQLException {
    Optional<String> url = settings.getOptionalValue(Sapotrace.JDBC_URL, String.class);
    if (url.isPresent()) {
      try (Connection connection = ExistingDatabase.connect(url.get(), settings)) {
        return of(connection);
      }
    }
    Path directory = Sapotrace.dataDirectory(settings);
    if (!Files.isDirectory(directory)) {
      throw Refusal.impossible(
          "There is no data in %s: set SAPOTRACE_DATA_DIRECTORY to where the service keeps it."
              .formatted(directory));
    }
    try (EmbeddedDatabase database = EmbeddedDatabase.start(directory);
        Connection connection = database.connect()) {
      return of(connection);
    }
  }

  private static int of(Connection connection) throws SQLException {
    connection.setAutoCommit(false);
    connection.setReadOnly(true);
    connection.setTransactionIsolation(Connection.TRANSACTION_REPEATABLE_READ);
    if (!LedgerCheck.isThere(connection)) {
      throw Refusal.impossible("There is none in this database yet: start the service on it once.");
    }
    Verification found = LedgerCheck.of(connection);
    System.out.println(told(found, connection));
    return found.intact() ? 0 : BROKEN;
  }

  private static String told(Verification found, Connection connection) throws SQLException {
    Verification.Broken broken = found.firstBroken();
    if (broken != null) {
      return "The ledger is broken. "
          + (broken.chain() == null
              ? "Head %d: %s".formatted(broken.head(), broken.problem())
              : "Entry %d of %s: %s".formatted(broken.seq(), broken.chain(), broken.problem()));
    }
    return "The ledger is intact: %d entries.%s"
        .formatted(
            found.entries(),
            LedgerCheck.lastHead(connection)
                .map(
                    head ->
                        " The last head is number %d, %s.".formatted(head.number(), head.hash()))
                .orElse(""));
  }
}
