package org.sapotrace.embedded;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.IOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.refusal.Refusal;

class EmbeddedDatabaseTest {

  @TempDir static Path temporary;
  private static Path directory;
  private static EmbeddedDatabase database;

  @BeforeAll
  static void start() {
    directory = temporary.resolve("O'Neil's Prüfstand");
    database = EmbeddedDatabase.start(directory);
  }

  @AfterAll
  static void stop() {
    database.close();
  }

  /** Those that acknowledge only what survives a power failure, and those that let nobody near. */
  @ParameterizedTest
  @CsvSource({
    "fsync, on",
    "synchronous_commit, on",
    "full_page_writes, on",
    "data_checksums, on",
    "listen_addresses, 127.0.0.1",
    "unix_socket_directories, ''",
    "password_encryption, scram-sha-256",
    "server_encoding, UTF8",
  })
  void isSetForARecordThatLasts(String setting, String value) throws SQLException {
    try (Connection connection = connectAs("postgres", database.password())) {
      assertThat(query(connection, "SHOW " + setting)).containsExactly(value);
    }
  }

  @Test
  void durabilityIsNotLostToALaterSettingInAFile() throws Exception {
    try (Connection connection = connectAs("postgres", database.password());
        Statement statement = connection.createStatement()) {
      statement.execute("ALTER SYSTEM SET fsync = off");
    }
    restart();
    assertThat(query("SHOW fsync")).containsExactly("on");
  }

  @Test
  void isThePostgresqlThatTheDirectoryIsNamedFor() throws SQLException {
    assertThat(query("SHOW server_version_num").get(0))
        .startsWith(String.valueOf(DataDirectory.MAJOR_VERSION));
  }

  @Test
  void sortsTheSameOnEveryMachine() throws SQLException {
    assertThat(
            query(
                "SELECT datlocprovider::text || ' ' || datlocale FROM pg_database"
                    + " WHERE datname = current_database()"))
        .containsExactly("b C.UTF-8");
  }

  @Test
  void servesARoleThatOwnsTheDatabaseAndIsNoSuperuser() throws SQLException {
    assertThat(
            query(
                "SELECT rolname || ' ' || rolsuper FROM pg_database JOIN pg_roles"
                    + " ON datdba = pg_roles.oid WHERE datname = current_database()"))
        .containsExactly("sapotrace false");
  }

  @ParameterizedTest
  @ValueSource(strings = {"sapotrace", "postgres"})
  void refusesAWrongPassword(String role) {
    // 28P01 is invalid_password: PostgreSQL documentation, appendix A.
    assertThatExceptionOfType(SQLException.class)
        .isThrownBy(() -> connectAs(role, "wrong").close())
        .satisfies(refused -> assertThat(refused.getSQLState()).isEqualTo("28P01"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"sapotrace", "postgres"})
  void refusesAConnectionWithoutPassword(String role) {
    assertThatExceptionOfType(SQLException.class)
        .isThrownBy(() -> connectAs(role, null).close())
        .withMessageContaining("password");
  }

  @Test
  void trustsNoKindOfConnection() throws SQLException {
    try (Connection connection = connectAs("postgres", database.password())) {
      assertThat(query(connection, "SELECT DISTINCT auth_method FROM pg_hba_file_rules"))
          .containsExactly("scram-sha-256");
    }
  }

  @Test
  void isNotReachedFromOtherMachines() throws IOException {
    List<InetAddress> beyondLoopback =
        NetworkInterface.networkInterfaces()
            .flatMap(NetworkInterface::inetAddresses)
            .filter(address -> address instanceof Inet4Address && !address.isLoopbackAddress())
            .toList();
    assumeThat(beyondLoopback).isNotEmpty();
    int port = URI.create(database.jdbcUrl().substring("jdbc:".length())).getPort();
    assertThat(beyondLoopback)
        .allSatisfy(
            address ->
                assertThatThrownBy(() -> new Socket(address, port).close())
                    .isInstanceOf(IOException.class));
  }

  @Test
  void keepsItsPasswordFromOtherUsers() throws IOException {
    Path file = directory.resolve("database-password");
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo("rw-------");
    assertThat(Files.readString(file).strip()).isEqualTo(database.password()).hasSize(32);
    assertThat(directory.resolve("postgresql.log")).content().doesNotContain(database.password());
  }

  @Test
  void keepsWhatWasWrittenAndItsPassword() throws Exception {
    String password = database.password();
    execute("CREATE TABLE kept (reading text)", "INSERT INTO kept VALUES ('12.34')");
    restart();
    assertThat(query("SELECT reading FROM kept")).containsExactly("12.34");
    assertThat(database.password()).isEqualTo(password);
  }

  @Test
  void startsDespiteThePidFileOfAServerThatIsGone() throws Exception {
    // Larger than any process number of Linux, 2^22 at most: proc(5), pid_max.
    restartWithPidFileOf(99_999_999);
  }

  @Test
  void startsDespiteAPidFileWhoseNumberIsNowAnotherProcess() throws Exception {
    restartWithPidFileOf(ProcessHandle.current().pid());
  }

  private static void restartWithPidFileOf(long pid) throws Exception {
    Path pidFile = directory.resolve("postgresql-18").resolve("postmaster.pid");
    List<String> lines = new ArrayList<>(Files.readAllLines(pidFile));
    lines.set(0, String.valueOf(pid));
    database.close();
    Files.write(pidFile, lines);
    start();
    assertThat(query("SELECT 1")).containsExactly("1");
  }

  @Test
  void refusesAClusterWhosePasswordIsLost() throws Exception {
    database.close();
    Path file = directory.resolve("database-password");
    Path aside = Files.move(file, directory.resolve("aside"));
    try {
      assertThatExceptionOfType(Refusal.class)
          .isThrownBy(EmbeddedDatabaseTest::start)
          .withMessageContaining(file + " with the database's password is missing");
    } finally {
      Files.move(aside, file);
      start();
    }
  }

  @Test
  void refusesAPasswordThatIsNotTheClusters() throws Exception {
    database.close();
    Path file = directory.resolve("database-password");
    String right = Files.readString(file);
    Files.writeString(file, "another");
    try {
      assertThatExceptionOfType(Refusal.class)
          .isThrownBy(EmbeddedDatabaseTest::start)
          .withMessageEndingWith("password authentication failed for user \"postgres\"");
    } finally {
      Files.writeString(file, right);
      start();
    }
  }

  private static void restart() {
    database.close();
    start();
  }

  private static Connection connectAs(String role, String password) throws SQLException {
    return database.connect("sapotrace", role, password);
  }

  private static void execute(String... statements) throws SQLException {
    try (Connection connection = connectAs(database.username(), database.password());
        Statement statement = connection.createStatement()) {
      for (String sql : statements) {
        statement.execute(sql);
      }
    }
  }

  private static List<String> query(String sql) throws SQLException {
    try (Connection connection = connectAs(database.username(), database.password())) {
      return query(connection, sql);
    }
  }

  private static List<String> query(Connection connection, String sql) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      List<String> answer = new ArrayList<>();
      while (rows.next()) {
        answer.add(rows.getString(1));
      }
      return answer;
    }
  }
}
