package org.sapotrace.ledger.persistence;

import java.sql.Array;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sapotrace.ledger.Entry;

/**
 * Writes many entries with one statement: the values of a column go as one array, each as text,
 * since an import enters as many of them as it brings results.
 */
final class EntriesInBulk {

  /** So many rows travel to the database at once. */
  private static final int TOGETHER = 1000;

  private static final String ENTRIES =
      """
      insert into ledger_entry (chain, seq, at, actor, action, line, stream, subject, content,
        previous_hash, hash)
      select chain, cast(seq as bigint), cast(at as timestamptz), actor, action, line, stream,
        subject, content, previous_hash, hash
      from unnest(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) as row (chain, seq, at, actor, action, line,
        stream, subject, content, previous_hash, hash)
      """;

  /** In the order of the statement. */
  private static final List<Function<Entry, @Nullable Object>> COLUMNS =
      List.of(
          Entry::chain,
          Entry::seq,
          Entry::at,
          Entry::actor,
          Entry::action,
          Entry::line,
          Entry::stream,
          Entry::subject,
          Entry::content,
          Entry::previousHash,
          Entry::hash);

  private EntriesInBulk() {}

  static void insert(Connection connection, List<Entry> entries) throws SQLException {
    try (PreparedStatement insert = connection.prepareStatement(ENTRIES)) {
      for (int from = 0; from < entries.size(); from += TOGETHER) {
        List<Entry> some = entries.subList(from, Math.min(entries.size(), from + TOGETHER));
        for (int i = 0; i < COLUMNS.size(); i++) {
          insert.setArray(i + 1, column(connection, some, COLUMNS.get(i)));
        }
        insert.executeUpdate();
      }
    }
  }

  private static Array column(
      Connection connection, List<Entry> entries, Function<Entry, @Nullable Object> value)
      throws SQLException {
    return connection.createArrayOf(
        "text",
        entries.stream()
            .map(value)
            .map(each -> each == null ? null : each.toString())
            .toArray(String[]::new));
  }
}
