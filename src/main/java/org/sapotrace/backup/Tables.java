package org.sapotrace.backup;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** The tables of the database, as its own catalogue names them. */
final class Tables {

  /** Where Flyway keeps which migrations were applied. */
  static final String HISTORY = "flyway_schema_history";

  private Tables() {}

  /**
   * All tables, the history of migrations first, each behind those that its foreign keys refer to.
   */
  static List<String> inOrder(Connection database) throws SQLException {
    Set<String> waiting =
        new LinkedHashSet<>(
            names(
                database,
                """
                select tablename from pg_tables where schemaname = current_schema()
                order by tablename <> '%s', tablename
                """
                    .formatted(HISTORY)));
    List<String> ordered = new ArrayList<>();
    while (!waiting.isEmpty()) {
      List<String> free = new ArrayList<>();
      for (String table : waiting) {
        if (ordered.containsAll(referredTo(database, table))) {
          free.add(table);
        }
      }
      if (free.isEmpty()) {
        throw new IllegalStateException("Tables refer to each other in a circle: " + waiting);
      }
      ordered.addAll(free);
      free.forEach(waiting::remove);
    }
    return ordered;
  }

  private static List<String> referredTo(Connection database, String table) throws SQLException {
    return names(
        database,
        """
        select distinct confrelid::regclass::text from pg_constraint
        where contype = 'f' and conrelid = ?::regclass and confrelid <> conrelid
        """,
        table);
  }

  /** The columns of a table in which values are stored, in their order. */
  static List<String> columns(Connection database, String table) throws SQLException {
    return names(
        database,
        """
        select attname from pg_attribute
        where attrelid = ?::regclass and attnum > 0 and not attisdropped and attgenerated = ''
        order by attnum
        """,
        table);
  }

  private static List<String> names(Connection database, String query, String... about)
      throws SQLException {
    try (PreparedStatement statement = database.prepareStatement(query)) {
      for (int i = 0; i < about.length; i++) {
        statement.setString(i + 1, about[i]);
      }
      List<String> names = new ArrayList<>();
      try (ResultSet rows = statement.executeQuery()) {
        while (rows.next()) {
          names.add(rows.getString(1));
        }
      }
      return names;
    }
  }
}
