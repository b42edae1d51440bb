package org.sapotrace.backup;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.embedded.EmbeddedDatabase;

class RestorationTest {

  @TempDir static Path temporary;
  private static EmbeddedDatabase database;
  private static Path backup;

  @TempDir Path directory;

  @BeforeAll
  static void backUp() throws SQLException {
    database = EmbeddedDatabase.start(temporary.resolve("data"));
    backup = temporary.resolve("sapotrace.zip");
    migrate();
    try (Connection connection = connection();
        Statement statement = connection.createStatement()) {
      statement.execute(
          "insert into line (slug, name, alkali, version) values ('harbour', E'Tab\\tand\\nline', 'sodium', 1)");
      Backup.write(connection, backup);
    }
  }

  @AfterAll
  static void stop() {
    database.close();
  }

  @BeforeEach
  void empty() throws SQLException {
    try (Connection connection = connection();
        Statement statement = connection.createStatement()) {
      statement.execute("drop schema public cascade");
      statement.execute("create schema public");
    }
  }

  @Test
  void bringsBackTheRowsAndTheTablesThatMigrationsMake() throws SQLException {
    restore(backup);
    try (Connection connection = connection();
        Statement statement = connection.createStatement();
        var rows = statement.executeQuery("select slug, name from line")) {
      assertThat(rows.next()).isTrue();
      assertThat(rows.getString("name")).isEqualTo("Tab\tand\nline");
    }
    // Flyway itself is content with what it finds.
    assertThat(migrate()).isZero();
  }

  @Test
  void restoresNothingOfADamagedFile() throws Exception {
    Path damaged = changed("line", text -> text.replace("harbour", "another"));
    assertThatThrownBy(() -> restore(damaged)).hasMessageContaining("no whole backup");
    assertEmpty();
  }

  @Test
  void restoresNothingOfAFileWithoutItsEnd() throws Exception {
    Path cut = changed("contents", text -> "");
    assertThatThrownBy(() -> restore(cut)).hasMessageContaining("no whole backup");
    assertEmpty();
  }

  @Test
  void restoresNothingOfANewerVersion() throws Exception {
    Path newer = changed(Tables.HISTORY, text -> text.replace("V1__", "V9999__"));
    assertThatThrownBy(() -> restore(newer)).hasMessageContaining("newer version of Sapotrace");
    assertEmpty();
  }

  @Test
  void runsNoScriptThatIsNoMigration() throws Exception {
    Path other = changed(Tables.HISTORY, text -> text.replace("V1__", "../V1__"));
    assertThatThrownBy(() -> restore(other)).hasMessageContaining("cannot be one");
    assertEmpty();
  }

  @Test
  void restoresNothingOfAnythingElse() throws Exception {
    Path text = Files.writeString(directory.resolve("notes.txt"), "no backup");
    assertThatThrownBy(() -> restore(text)).hasMessageContaining("no whole backup");
    assertEmpty();
  }

  @Test
  void leavesADatabaseAloneThatIsNotEmpty() throws SQLException {
    restore(backup);
    assertThatThrownBy(() -> restore(backup)).hasMessageContaining("not empty");
  }

  @Test
  void isNotMadeOfADatabaseInWhichNothingIs() throws SQLException {
    Path file = directory.resolve("nothing.zip");
    try (Connection connection = connection()) {
      assertThatThrownBy(() -> Backup.write(connection, file))
          .hasMessageContaining("nothing in this database");
    }
    assertThat(directory).isEmptyDirectory();
  }

  private static void restore(Path file) throws SQLException {
    try (Connection connection = connection()) {
      Restoration.read(connection, file);
    }
  }

  private void assertEmpty() throws SQLException {
    try (Connection connection = connection()) {
      assertThat(Tables.inOrder(connection)).isEmpty();
    }
  }

  /** A copy of the backup in which one entry reads otherwise. */
  private Path changed(String entry, UnaryOperator<String> change) throws IOException {
    Path copy = directory.resolve("changed.zip");
    try (ZipFile original = new ZipFile(backup.toFile());
        ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(copy))) {
      for (ZipEntry each : java.util.Collections.list(original.entries())) {
        String text = new String(original.getInputStream(each).readAllBytes(), UTF_8);
        out.putNextEntry(new ZipEntry(each.getName()));
        out.write((each.getName().equals(entry) ? change.apply(text) : text).getBytes(UTF_8));
        out.closeEntry();
      }
    }
    return copy;
  }

  private static int migrate() {
    return Flyway.configure()
        .dataSource(database.jdbcUrl(), database.username(), database.password())
        .placeholders(Map.of())
        .load()
        .migrate()
        .migrationsExecuted;
  }

  private static Connection connection() throws SQLException {
    return DriverManager.getConnection(
        database.jdbcUrl(), database.username(), database.password());
  }
}
