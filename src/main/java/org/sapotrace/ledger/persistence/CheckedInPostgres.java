package org.sapotrace.ledger.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import org.hibernate.Session;
import org.sapotrace.ledger.Checked;
import org.sapotrace.ledger.LedgerCheck;
import org.sapotrace.ledger.Verification;

@ApplicationScoped
class CheckedInPostgres implements Checked {

  private final Session database;

  CheckedInPostgres(Session database) {
    this.database = database;
  }

  @Override
  public Verification verification() {
    return database.doReturningWork(CheckedInPostgres::verification);
  }

  private static Verification verification(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute("set transaction isolation level repeatable read, read only");
    }
    return LedgerCheck.of(connection);
  }
}
