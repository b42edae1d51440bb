package org.sapotrace;

import java.sql.Connection;
import java.sql.SQLException;
import org.sapotrace.ledger.LedgerCheck;
import org.sapotrace.ledger.Verification;
import org.sapotrace.refusal.Refusal;

/** Checks the ledger, whether the service runs or not. */
final class LedgerVerification {

  private static final int BROKEN = 1;

  private LedgerVerification() {}

  /**
   * What is found; with status 1 where the ledger is broken.
   *
   * @throws Refusal where there is no ledger, or it cannot be read
   */
  static Errand.Outcome of(Connection connection) {
    try {
      connection.setAutoCommit(false);
      connection.setReadOnly(true);
      connection.setTransactionIsolation(Connection.TRANSACTION_REPEATABLE_READ);
      if (!LedgerCheck.isThere(connection)) {
        throw Refusal.impossible(
            "There is no ledger in this database yet: start the service on it once.");
      }
      Verification found = LedgerCheck.of(connection);
      return new Errand.Outcome(found.intact() ? 0 : BROKEN, told(found, connection));
    } catch (SQLException failed) {
      throw Refusal.impossible("The database says: " + failed.getMessage());
    }
  }

  private static String where(Verification.Broken broken) {
    if (broken.chain() == null) {
      return "Head %d: ".formatted(broken.head());
    }
    return broken.seq() == null
        ? "Of %s: ".formatted(broken.chain())
        : "Entry %d of %s: ".formatted(broken.seq(), broken.chain());
  }

  private static String told(Verification found, Connection connection) throws SQLException {
    Verification.Broken broken = found.firstBroken();
    if (broken != null) {
      return "The ledger is broken. " + where(broken) + broken.problem();
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
