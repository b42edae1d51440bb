package org.sapotrace.rates;

import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.IntFunction;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RunningService;

/**
 * How many rows a second the packaged service imports, beside the same rows one by one and beside
 * as many rows written into a bare table of the same PostgreSQL.
 */
final class ImportRates {

  private static final Instant FIRST = Instant.parse("1990-01-01T00:00:00Z");
  private static final String NDJSON = "application/x-ndjson";
  private static final String CSV = "text/csv";
  private static final String HEADER = "batch,sampledAt,values.1,source\n";
  private static final int SINGLES = 200;
  private static final int TOGETHER = 1000;

  /** What a measurement took: on the clock, and of the processors. */
  private record Took(Duration time, Duration service, Duration database) {}

  private final RunningService service;
  private final Connection connection;
  private final ProcessHandle postmaster;

  private ImportRates(RunningService service, Connection connection) throws SQLException {
    this.service = service;
    this.connection = connection;
    try (var statement = connection.createStatement();
        var backend = statement.executeQuery("select pg_backend_pid()")) {
      backend.next();
      this.postmaster = ProcessHandle.of(backend.getLong(1)).orElseThrow().parent().orElseThrow();
    }
  }

  private Took timed(Runnable work) {
    Duration serviceBefore = cpu(ProcessHandle.of(service.pid()).orElseThrow());
    Duration databaseBefore = ofDatabase();
    long begun = System.nanoTime();
    work.run();
    Duration time = Duration.ofNanos(System.nanoTime() - begun);
    return new Took(
        time,
        cpu(ProcessHandle.of(service.pid()).orElseThrow()).minus(serviceBefore),
        ofDatabase().minus(databaseBefore));
  }

  private Duration ofDatabase() {
    return postmaster.children().map(ImportRates::cpu).reduce(Duration.ZERO, Duration::plus);
  }

  private static Duration cpu(ProcessHandle process) {
    return process.info().totalCpuDuration().orElse(Duration.ZERO);
  }

  public static void main(String[] arguments) throws SQLException {
    int rows = Integer.parseInt(arguments[0]);
    PostgresResource postgres = new PostgresResource();
    Map<String, String> database = postgres.start();
    RunningService.Setup setup = RunningService.Setup.on(Path.of("target"));
    for (Map.Entry<String, String> setting : database.entrySet()) {
      String name = setting.getKey().replace('.', '_').toUpperCase(Locale.ROOT);
      setup = setup.withEnvironment(name, setting.getValue());
    }
    try (RunningService service = setup.start();
        Connection connection =
            DriverManager.getConnection(
                database.get("quarkus.datasource.jdbc.url"),
                database.get("quarkus.datasource.username"),
                database.get("quarkus.datasource.password"))) {
      ImportRates rates = new ImportRates(service, connection);
      rates.bare(rows);
      rates.measure(rows);
    } finally {
      postgres.stop();
    }
  }

  private void measure(int rows) {
    put("/lines/rates", "{\"name\": \"Rates\", \"alkali\": \"sodium\"}");
    // A process warms up before it is measured.
    imported("warm-json", NDJSON, "", ImportRates::json, rows);
    imported("warm-csv", CSV, HEADER, ImportRates::csv, Math.min(rows, 20_000));
    singles(SINGLES / 2);
    say("results one by one", SINGLES, singles(SINGLES));
    say("results imported, JSON", rows, imported("json", NDJSON, "", ImportRates::json, rows));
    say("results imported, CSV", rows, imported("csv", CSV, HEADER, ImportRates::csv, rows));
    say(
        "titrations imported, JSON",
        rows / 50,
        imported("titrations", NDJSON, "", ImportRates::titration, rows / 50));
  }

  private Took imported(
      String stream, String type, String head, IntFunction<String> row, int rows) {
    watched(stream);
    StringBuilder body = new StringBuilder(head);
    for (int i = 0; i < rows; i++) {
      body.append(row.apply(i)).append('\n');
    }
    return timed(
        () -> {
          String answer =
              post("/lines/rates/streams/" + stream + "/imports", type, body.toString(), 200);
          if (!answer.contains("\"accepted\":" + rows + ",")) {
            throw new IllegalStateException(answer.substring(0, Math.min(500, answer.length())));
          }
        });
  }

  private Took singles(int rows) {
    String stream = "singles-" + rows;
    watched(stream);
    return timed(
        () -> {
          for (int i = 0; i < rows; i++) {
            post("/lines/rates/streams/" + stream + "/results", "application/json", json(i), 201);
          }
        });
  }

  /** A stream under adopted limits, charted as any new stream is. */
  private void watched(String stream) {
    put(
        "/lines/rates/streams/" + stream,
        "{\"name\": \"Soap\", \"samplingPoint\": \"after-wash\", \"measurand\": \"soap\", \"unit\": \"mg/kg\"}");
    post(
        "/lines/rates/streams/" + stream + "/limits",
        "application/json",
        "{\"given\": {\"centre\": 30, \"sigma\": 3}}",
        201);
  }

  private static String json(int i) {
    return "{\"batch\": \"K-%d\", \"sampledAt\": \"%s\", \"values\": [%s], \"source\": \"plant\"}"
        .formatted(i, at(i), value(i));
  }

  private static String csv(int i) {
    return "K-%d,%s,%s,plant".formatted(i, at(i), value(i));
  }

  private static String titration(int i) {
    return "{\"batch\": \"K-%d\", \"sampledAt\": \"%s\", \"titrant\": {\"normality\": 0.01}, \"replicates\": [{\"titrantMl\": %s, \"sampleG\": 40.03}, {\"titrantMl\": %s, \"sampleG\": 39.98}]}"
        .formatted(
            i, at(i), Math.round(value(i) * 1.31) / 100.0, Math.round(value(i) * 1.3) / 100.0);
  }

  private static Instant at(int i) {
    return FIRST.plus(Duration.ofMinutes(10L * i));
  }

  private static double value(int i) {
    return Math.round(10 * (30 + 3 * new SplittableRandom(i).nextGaussian())) / 10.0;
  }

  private void bare(int rows) throws SQLException {
    try (var statement = connection.createStatement()) {
      statement.execute(
          "create table bare (batch text, at timestamptz, value double precision, primary key (at, batch))");
    }
    connection.setAutoCommit(false);
    insert(Math.min(rows, 20_000), "warm-");
    Took took = timed(() -> insert(rows, "K-"));
    say("a bare table, by JDBC in batches", rows, took);
  }

  private void insert(int rows, String prefix) {
    try (PreparedStatement insert =
        connection.prepareStatement("insert into bare values (?, ?, ?)")) {
      for (int i = 0; i < rows; i++) {
        insert.setString(1, prefix + i);
        insert.setTimestamp(2, Timestamp.from(at(i)));
        insert.setDouble(3, value(i));
        insert.addBatch();
        if (i % TOGETHER == TOGETHER - 1 || i == rows - 1) {
          insert.executeBatch();
          connection.commit();
        }
      }
    } catch (SQLException failed) {
      throw new IllegalStateException(failed);
    }
  }

  private void put(String path, String body) {
    send(path, "application/json", "PUT", body, 201);
  }

  private String post(String path, String type, String body, int status) {
    return send(path, type, "POST", body, status);
  }

  private String send(String path, String type, String method, String body, int status) {
    HttpResponse<String> answer =
        service.send(
            HttpRequest.newBuilder(URI.create(service.baseUrl() + "/api/v1" + path))
                .header("Content-Type", type)
                .method(method, BodyPublishers.ofString(body))
                .build());
    if (answer.statusCode() != status) {
      throw new IllegalStateException(answer.statusCode() + " " + answer.body());
    }
    return answer.body();
  }

  @SuppressWarnings("SystemOut") // What it is there for.
  private static void say(String what, int rows, Took took) {
    System.out.printf(
        Locale.ROOT,
        "| %s | %d | %.0f | %.0f | %.0f |%n",
        what,
        rows,
        rows / (took.time().toNanos() / 1e9),
        took.service().toNanos() / 1e3 / rows,
        took.database().toNanos() / 1e3 / rows);
  }
}
