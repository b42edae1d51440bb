package org.sapotrace.contract;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import javax.sql.DataSource;

/** Tells whether anything in any table of the service has come, gone or changed. */
final class Stored {

  private static final String LAST_WRITE = "select pg_snapshot_xmax(pg_current_snapshot())";

  private final DataSource database;
  private final String query;
  private String knownAt = "";
  private String known = "";

  Stored(DataSource database) throws SQLException {
    this.database = database;
    this.query = tables().stream().map(Stored::digest).collect(Collectors.joining(" || '; ' || "));
  }

  /**
   * The number of rows of each table, and the sum of the transactions that wrote them: whatever
   * comes or changes has a newer one. It is worked out again only where a transaction began to
   * write since, since it takes long on a full database.
   */
  String state() throws SQLException {
    String last = read(LAST_WRITE).get(0);
    if (!last.equals(knownAt)) {
      known = read("select " + query).get(0);
      knownAt = last;
    }
    return known;
  }

  /**
   * The tables, but for those of the migrations, and of heads, which are made in their own time.
   */
  List<String> tables() throws SQLException {
    return read(
        "select table_name from information_schema.tables where table_schema = 'public'"
            + " and table_name not like 'flyway%' and table_name not like 'ledger_head%'"
            + " and table_name <> 'ledger_fresh' order by table_name");
  }

  private static String digest(String table) {
    return "(select '%1$s ' || count(*) || ' ' || coalesce(sum(xmin::text::bigint), 0) from \"%1$s\" t)"
        .formatted(table);
  }

  private List<String> read(String sql) throws SQLException {
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      List<String> found = new ArrayList<>();
      while (rows.next()) {
        found.add(rows.getString(1));
      }
      return found;
    }
  }
}
