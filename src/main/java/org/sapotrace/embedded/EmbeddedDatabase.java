package org.sapotrace.embedded;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import org.sapotrace.refusal.Refusal;

/**
 * A PostgreSQL that runs as long as the service does, on a data directory that outlives both.
 *
 * <p>The programs are those of zonky's embedded PostgreSQL, but they are run from here, because
 * zonky's own runner serves tests: it creates the cluster with trust authentication, turns
 * durability off, ends PostgreSQL in a shutdown hook of its own while requests are still being
 * answered, and fails on a directory whose PostgreSQL survived its parent.
 *
 * <p>What is written is on the disk before it is acknowledged ({@code fsync}, {@code
 * synchronous_commit} and {@code full_page_writes} are on and cannot be set otherwise), only
 * loopback is listened on, and nobody connects without the password.
 */
public final class EmbeddedDatabase implements AutoCloseable {

  /** The role that owns the database, which has the same name; it is no superuser. */
  static final String NAME = "sapotrace";

  private static final String SUPERUSER = "postgres";
  private static final int ATTEMPTS = 3;
  private static final int WATCHED_EVERY_MS = 500;
  private static final System.Logger LOG = System.getLogger(EmbeddedDatabase.class.getName());

  /** Finds the port to listen on. */
  @FunctionalInterface
  private interface Port {
    int find() throws IOException;
  }

  /** Given on the command line, so that no file and no ALTER SYSTEM overrules them. */
  private static final List<String> SETTINGS =
      List.of(
          "fsync=on",
          "synchronous_commit=on",
          "full_page_writes=on",
          "listen_addresses=127.0.0.1",
          "unix_socket_directories=",
          "timezone=UTC",
          "log_timezone=UTC",
          "log_checkpoints=off");

  private final DataDirectory directory;
  private final PostgresPrograms programs;
  private final String password;
  private final Thread watch = new Thread(this::watch, "database watch");
  private int port;
  private volatile boolean closed;

  private EmbeddedDatabase(DataDirectory directory) throws IOException {
    this.directory = directory;
    this.programs = PostgresPrograms.in(directory);
    this.password = PasswordFile.passwordIn(directory);
  }

  /** Whether there is a database in a data directory, running or not. */
  public static boolean isIn(Path dataDirectory) {
    return Files.isDirectory(
        dataDirectory.resolve(DataDirectory.CLUSTER + DataDirectory.MAJOR_VERSION));
  }

  /**
   * Starts PostgreSQL on a data directory, which is set up where it is empty. A PostgreSQL that a
   * killed service left running there is stopped first.
   *
   * @throws Refusal when it cannot be started, in words for whoever runs the service
   */
  public static EmbeddedDatabase start(Path dataDirectory) {
    DataDirectory directory = DataDirectory.hold(dataDirectory);
    try {
      EmbeddedDatabase database = new EmbeddedDatabase(directory);
      database.start();
      return database;
    } catch (IOException failed) {
      directory.close();
      throw Refusal.impossible(
          "The database in " + directory + " does not start: " + failed.getMessage());
    } catch (RuntimeException failed) {
      directory.close();
      throw failed;
    }
  }

  private void start() throws IOException {
    Path cluster = directory.cluster();
    if (!Files.exists(cluster)) {
      Path unfinished = directory.unfinished();
      createCluster(unfinished);
      directory.finish(unfinished, cluster);
    }
    startServer(EmbeddedDatabase::freePort);
    try {
      createDatabase();
    } catch (SQLException failed) {
      stopServer();
      // Further lines are for PostgreSQL's developers.
      throw new IOException(String.valueOf(failed.getMessage()).lines().findFirst().orElse(""));
    }
    watch.setDaemon(true);
    watch.start();
  }

  /** Starts a PostgreSQL again that was killed, where the service expects it. */
  private void watch() {
    try {
      while (!watch.isInterrupted()) {
        Thread.sleep(WATCHED_EVERY_MS);
        startAgainWhereGone();
      }
    } catch (InterruptedException closing) {
      // The end.
    }
  }

  private synchronized void startAgainWhereGone() {
    try {
      if (!closed && !LeftOverPostmaster.runs(directory.cluster())) {
        LOG.log(System.Logger.Level.WARNING, "PostgreSQL is gone and is started again.");
        startServer(() -> port);
      }
    } catch (IOException | Refusal failed) {
      LOG.log(System.Logger.Level.ERROR, failed.getMessage());
    }
  }

  private void createCluster(Path cluster) throws IOException {
    programs.run(
        "initdb",
        "--pgdata=" + cluster,
        "--username=" + SUPERUSER,
        "--pwfile=" + directory.passwordFile(),
        "--auth=scram-sha-256",
        "--encoding=UTF8",
        "--locale=C",
        "--locale-provider=builtin",
        "--builtin-locale=C.UTF-8");
  }

  /** Tries again where the free port was taken meanwhile, or a killed server's children linger. */
  private void startServer(Port wanted) throws IOException {
    for (int attempt = 1; ; attempt++) {
      LeftOverPostmaster.stop(directory.cluster(), programs);
      boolean isFirst = port == 0;
      port = wanted.find();
      // Once it has run, what it says of its end stands in the log, and is added to.
      if (isFirst && Files.exists(directory.log())) {
        Path previous = directory.log().resolveSibling("postgresql.previous.log");
        Files.move(directory.log(), previous, StandardCopyOption.REPLACE_EXISTING);
      }
      try {
        String cluster = directory.cluster().toString();
        String options = "-c port=" + port + " -c " + String.join(" -c ", SETTINGS);
        String log = directory.log().toString();
        programs.run("pg_ctl", "start", "-w", "-t", "300", "-D", cluster, "-l", log, "-o", options);
        return;
      } catch (Refusal refused) {
        if (attempt == ATTEMPTS || closed) {
          throw Refusal.impossible(
              "The database in %s does not start; %s says why. %s"
                  .formatted(directory, directory.log(), refused.getMessage()));
        }
        pause();
      }
    }
  }

  private static void pause() throws IOException {
    try {
      Thread.sleep(1000);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while starting PostgreSQL", interrupted);
    }
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private void createDatabase() throws SQLException {
    try (Connection connection = connect(SUPERUSER, SUPERUSER, password);
        Statement statement = connection.createStatement()) {
      if (exists(statement, "SELECT FROM pg_database WHERE datname = '" + NAME + "'")) {
        return;
      }
      if (!exists(statement, "SELECT FROM pg_roles WHERE rolname = '" + NAME + "'")) {
        statement.execute("CREATE ROLE " + NAME + " LOGIN PASSWORD '" + password + "'");
      }
      statement.execute("CREATE DATABASE " + NAME + " OWNER " + NAME);
    }
  }

  private static boolean exists(Statement statement, String query) throws SQLException {
    try (ResultSet rows = statement.executeQuery(query)) {
      return rows.next();
    }
  }

  /** A connection to a database as a role, with what it says is its password. */
  Connection connect(String database, String role, String itsPassword) throws SQLException {
    return DriverManager.getConnection(address(database), role, itsPassword);
  }

  /** A connection to the database as the role that owns it. */
  public Connection connect() throws SQLException {
    return connect(NAME, NAME, password);
  }

  private String address(String database) {
    return address(port, database);
  }

  static String address(int port, String database) {
    return "jdbc:postgresql://127.0.0.1:" + port + "/" + database;
  }

  /** The address of the database, without credentials. */
  public String jdbcUrl() {
    return address(NAME);
  }

  public String username() {
    return NAME;
  }

  public String password() {
    return password;
  }

  /**
   * Stops PostgreSQL for good, which rolls back what is not committed, and lets go of the
   * directory.
   */
  @Override
  public void close() {
    closed = true;
    watch.interrupt();
    stop();
  }

  private synchronized void stop() {
    try {
      stopServer();
    } catch (IOException failed) {
      throw Refusal.impossible(
          "The database in " + directory + " does not stop: " + failed.getMessage());
    } finally {
      directory.close();
    }
  }

  private void stopServer() throws IOException {
    programs.run("pg_ctl", "stop", "-m", "fast", "-w", "-t", "60", "-D", cluster());
  }

  private String cluster() {
    return directory.cluster().toString();
  }
}
