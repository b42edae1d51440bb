package org.sapotrace.backup;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayOutputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.jspecify.annotations.Nullable;
import org.postgresql.PGConnection;
import org.postgresql.copy.CopyManager;
import org.sapotrace.refusal.Refusal;

/*
 * All of it is one transaction: the migrations that the backup's tables were made by, run from this
 * version's own scripts, the rows, and the comparison with the list at the end of the file. The next
 * start applies the migrations that are newer.
 */
/** Reads a backup into an empty database. */
public final class Restoration {

  /** As Flyway makes it for PostgreSQL. */
  private static final String HISTORY =
      """
      create table flyway_schema_history (
        installed_rank integer not null constraint flyway_schema_history_pk primary key,
        version        varchar(50),
        description    varchar(200) not null,
        type           varchar(20) not null,
        script         varchar(1000) not null,
        checksum       integer,
        installed_by   varchar(100) not null,
        installed_on   timestamp not null default now(),
        execution_time integer not null,
        success        boolean not null
      );
      create index flyway_schema_history_s_idx on flyway_schema_history (success);
      """;

  /** With the directory, or without, as Flyway's version has it. */
  private static final Pattern MIGRATION =
      Pattern.compile("(?:db/migration/)?(V[0-9]+__[a-z0-9_]+\\.sql)");

  private final Connection database;
  private final CopyManager copying;
  private final List<Content> contents = new ArrayList<>();

  private Restoration(Connection database) throws SQLException {
    this.database = database;
    this.copying = database.unwrap(PGConnection.class).getCopyAPI();
  }

  /**
   * Reads a backup. The database holds all of it afterwards, or is as empty as before.
   *
   * @param database on which nothing is under way
   * @return what was read
   * @throws Refusal where the database is not empty, or the file is not there, not whole, or made
   *     by a newer version
   */
  public static Copied read(Connection database, Path file) {
    try (ZipInputStream archive = new ZipInputStream(Files.newInputStream(file))) {
      database.setAutoCommit(false);
      if (!Tables.inOrder(database).isEmpty()) {
        throw Refusal.conflict(
            "The database is not empty and stays as it is: restore into an empty one, such as"
                + " another SAPOTRACE_DATA_DIRECTORY.");
      }
      Restoration restoration = new Restoration(database);
      restoration.readAll(archive, file);
      database.commit();
      return Copied.of(restoration.contents);
    } catch (NoSuchFileException missing) {
      throw Refusal.unknown("There is no file %s.".formatted(file));
    } catch (IOException | SQLException failed) {
      throw Refusal.impossible(
          "The backup %s cannot be restored: %s.".formatted(file, firstLine(failed)));
    }
  }

  private static String firstLine(Exception failed) {
    return String.valueOf(failed.getMessage()).lines().findFirst().orElse("");
  }

  private void readAll(ZipInputStream archive, Path file) throws IOException, SQLException {
    byte[] list = null;
    for (ZipEntry entry; (entry = archive.getNextEntry()) != null; ) {
      if (entry.getName().equals(Content.LIST)) {
        list = archive.readAllBytes();
      } else {
        read(entry.getName(), archive);
      }
    }
    refuseDamaged(list, file);
  }

  private void refuseDamaged(byte @Nullable [] list, Path file) {
    if (list == null || contents.isEmpty() || !Arrays.equals(list, Content.list(contents))) {
      throw Refusal.impossible(
          "%s is no whole backup, and nothing was restored: take another one.".formatted(file));
    }
  }

  private void read(String table, InputStream archive) throws IOException, SQLException {
    boolean isHistory = contents.isEmpty() && table.equals(Tables.HISTORY);
    if (isHistory) {
      execute(HISTORY);
    } else if (!Tables.inOrder(database).contains(table)) {
      throw Refusal.impossible("The backup names a table that its version does not have.");
    }
    MessageDigest digest = Content.sha256();
    InputStream in = new DigestInputStream(new Entry(archive), digest);
    String columns = line(in);
    if (!String.join(", ", Tables.columns(database, table)).equals(columns)) {
      throw Refusal.impossible("The backup's tables are not those of its version.");
    }
    // Some migrations put a row of their own into a table.
    if (hasRows(table)) {
      execute("delete from " + table);
    }
    long rows = copying.copyIn("copy %s (%s) from stdin".formatted(table, columns), in);
    contents.add(Content.of(table, rows, digest));
    if (isHistory) {
      migrate();
    }
  }

  private boolean hasRows(String table) throws SQLException {
    try (Statement statement = database.createStatement();
        ResultSet rows = statement.executeQuery("select from " + table + " limit 1")) {
      return rows.next();
    }
  }

  private static String line(InputStream in) throws IOException {
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    for (int read; (read = in.read()) != '\n'; ) {
      if (read < 0) {
        throw new IOException("it ends in the middle of a line");
      }
      line.write(read);
    }
    return line.toString(UTF_8);
  }

  /** Runs the scripts that the history names. */
  private void migrate() throws IOException, SQLException {
    List<String> scripts = new ArrayList<>();
    try (Statement statement = database.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "select script from flyway_schema_history where version is not null"
                    + " order by installed_rank")) {
      while (rows.next()) {
        scripts.add(rows.getString(1));
      }
    }
    for (String script : scripts) {
      execute(script(script));
    }
  }

  private static String script(String name) throws IOException {
    Matcher file = MIGRATION.matcher(name);
    if (!file.matches()) {
      throw Refusal.impossible("The backup names a migration that cannot be one.");
    }
    try (InputStream script =
        Thread.currentThread()
            .getContextClassLoader()
            .getResourceAsStream("db/migration/" + file.group(1))) {
      if (script == null) {
        throw Refusal.impossible(
            "The backup was made by a newer version of Sapotrace: restore it with that one.");
      }
      return new String(script.readAllBytes(), UTF_8);
    }
  }

  private void execute(String sql) throws SQLException {
    try (Statement statement = database.createStatement()) {
      statement.execute(sql);
    }
  }

  /** An entry of the archive, behind which the next one can be read. */
  private static final class Entry extends FilterInputStream {
    Entry(InputStream archive) {
      super(archive);
    }

    @Override
    public void close() {}
  }
}
