package org.sapotrace.ledger;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/*
 * It needs a connection and nothing else of the service, so that it can be run beside a service that
 * is not trusted. What it holds grows with the number of chains, not of entries.
 */
/** Computes every hash of the ledger again. */
public final class LedgerCheck {

  private static final int FETCHED_AT_ONCE = 1000;

  private final Connection connection;
  private final ChainCheck chains = new ChainCheck();
  private final RevisionCheck revisions;
  private Verification.@Nullable Broken broken;

  private LedgerCheck(Connection connection) {
    this.connection = connection;
    this.revisions = new RevisionCheck(connection);
  }

  /**
   * Checks the ledger, and that results are on record as it says.
   *
   * @param connection of a transaction that sees one state of the database and nothing later
   */
  public static Verification of(Connection connection) throws SQLException {
    LedgerCheck check = new LedgerCheck(connection);
    check.followTold();
    check.followUntold();
    check.note(check.revisions.rest());
    if (check.broken == null) {
      check.note(UntoldCheck.of(connection, check.revisions.told()));
    }
    return Verification.of(check.count(), check.broken);
  }

  /** Whether there is a ledger in the database. */
  public static boolean isThere(Connection connection) throws SQLException {
    try (Statement query = connection.createStatement();
        ResultSet rows = query.executeQuery("select to_regclass('ledger_entry') is not null")) {
      return rows.next() && rows.getBoolean(1);
    }
  }

  /**
   * The last head, without its chains; whoever keeps its hash elsewhere misses it if it is gone.
   */
  public static Optional<Head> lastHead(Connection connection) throws SQLException {
    try (Statement query = connection.createStatement();
        ResultSet rows =
            query.executeQuery(
                """
                select number, at as head_at, previous_hash as head_previous, hash as head_hash
                from ledger_head order by number desc limit 1
                """)) {
      return rows.next() ? Optional.of(new OpenHead(rows).closed()) : Optional.empty();
    }
  }

  /** Of what is found the first counts, and results lag behind the entries about them. */
  private void note(Optional<Verification.Broken> found) throws SQLException {
    if (broken == null && found.isPresent()) {
      broken = revisions.rest().or(() -> found).orElseThrow();
    }
  }

  private void followTold() throws SQLException {
    try (Statement query = connection.createStatement()) {
      query.setFetchSize(FETCHED_AT_ONCE);
      try (ResultSet rows = query.executeQuery(LedgerRows.TOLD)) {
        OpenHead head = null;
        while (broken == null && rows.next()) {
          if (head == null || head.number != rows.getLong("number")) {
            end(head);
            head = new OpenHead(rows);
          }
          follow(head, rows);
        }
        end(head);
      }
    }
  }

  private void follow(OpenHead head, ResultSet row) throws SQLException {
    if (row.getString("told_chain") != null) {
      head.add(LedgerRows.reached(row));
    }
    if (broken == null && row.getString("chain") != null) {
      follow(head.number, LedgerRows.entry(row));
    }
  }

  private void follow(@Nullable Long head, Entry entry) throws SQLException {
    note(chains.follow(head, entry));
    note(revisions.follow(head, entry));
  }

  private void end(@Nullable OpenHead head) throws SQLException {
    if (broken == null && head != null) {
      note(chains.follow(head.closed()));
    }
  }

  private void followUntold() throws SQLException {
    try (Statement query = connection.createStatement()) {
      query.setFetchSize(FETCHED_AT_ONCE);
      try (ResultSet rows = query.executeQuery(LedgerRows.UNTOLD)) {
        while (broken == null && rows.next()) {
          Entry entry = LedgerRows.entry(rows);
          follow(null, entry);
          if (rows.getBoolean("last") && !rows.getBoolean("fresh")) {
            String problem = "No head tells of the entry, and none is going to: heads are missing.";
            note(Optional.of(new Verification.Broken(null, entry.chain(), entry.seq(), problem)));
          }
        }
      }
    }
  }

  private long count() throws SQLException {
    try (Statement query = connection.createStatement();
        ResultSet rows = query.executeQuery("select count(*) from ledger_entry")) {
      rows.next();
      return rows.getLong(1);
    }
  }

  /** A head whose chains are being read. */
  private static final class OpenHead {

    private final long number;
    private final Instant at;
    private final String previousHash;
    private final String hash;
    private final List<Head.Reached> chains = new ArrayList<>();

    OpenHead(ResultSet row) throws SQLException {
      this.number = row.getLong("number");
      this.at = LedgerRows.instant(row, "head_at");
      this.previousHash = row.getString("head_previous");
      this.hash = row.getString("head_hash");
    }

    void add(Head.Reached reached) {
      if (chains.isEmpty() || !chains.get(chains.size() - 1).equals(reached)) {
        chains.add(reached);
      }
    }

    Head closed() {
      return new Head(number, at, chains, previousHash, hash);
    }
  }
}
