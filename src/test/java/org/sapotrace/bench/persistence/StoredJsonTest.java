package org.sapotrace.bench.persistence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.InputStream;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/**
 * What was once stored as JSON can be read for ever.
 *
 * <p>{@code stored-by-0.1.json} is what the service wrote into {@code result_revision} and {@code
 * evaluation} when these columns were first made, the result of a titration and one measured
 * elsewhere under limits of 30 ± 4 (centre and sigma); then, when there were titrant lots, of a
 * titration with one and of a standardisation; then of a removal. It must never be changed, only
 * added to: where a test here fails, records of running plants have become unreadable.
 */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class StoredJsonTest {

  private static final String INSERT =
      """
      with s as (select id from stream where line = ?),
      r as (insert into result select id, ?, ?, ?::timestamptz from s),
      p as (insert into point select id, ?::timestamptz, ?, ?, ?, ?, null, false from s),
      v as (insert into result_revision
        select id, ?, 1, now(), null, false, ?, ?::jsonb, ?::jsonb from s)
      insert into evaluation select id, ?::timestamptz, ?, 1, '{}', ?::jsonb from s
      """;

  @Inject DataSource database;

  // The results that the run state goes on from; each of those stored later stands by itself.
  private static final int FIRST = 2;

  private final UUID[] ids = Stream.generate(UUID::randomUUID).limit(5).toArray(UUID[]::new);
  private TestStream stream;
  private JsonNode stored;

  @BeforeEach
  void store() throws IOException, SQLException {
    stream =
        TestStream.with(
            """
            {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
             "unit": "mg/kg", "chart": {"rules": "western-electric-1956"}}
            """);
    stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 4}, \"reason\": \"known\"}");
    try (InputStream in = StoredJsonTest.class.getResourceAsStream("stored-by-0.1.json")) {
      stored = new ObjectMapper().readTree(in);
    }
    for (int i = 0; i < FIRST; i++) {
      insert(ids[i], i + 1, stored.get(i));
    }
  }

  /** No entry of the ledger tells of them, and others look at the whole of it. */
  @AfterEach
  void takeBack() throws SQLException {
    try (Connection connection = database.getConnection()) {
      for (String from :
          List.of(
              "evaluation where result_id",
              "point where result_id",
              "result_revision where result_id",
              "result where id")) {
        try (PreparedStatement delete =
            connection.prepareStatement("delete from %s = any (?)".formatted(from))) {
          delete.setArray(1, connection.createArrayOf("uuid", ids));
          delete.executeUpdate();
        }
      }
    }
  }

  @Test
  void readsATitration() {
    JsonNode read = read(0);

    assertThat(read.get("analyst").asText()).isEqualTo("Ada Winter");
    assertThat(read.at("/titrant/standardUncertainty").asDouble()).isEqualTo(0.00002);
    assertThat(read.get("blankMl").asDouble()).isEqualTo(0.05);
    assertThat(read.get("glassware").asText()).isEqualTo("burette-10ml");
    assertThat(read.at("/replicates/0/sampleG").asDouble()).isEqualTo(40.03);
    assertThat(read.at("/replicates/1/sampleC").asDouble()).isEqualTo(21.5);
    assertThat(read.at("/result/budget")).hasSize(9);
  }

  @Test
  void readsAResultMeasuredElsewhere() {
    JsonNode read = read(1);

    assertThat(read.get("batch").asText()).isEqualTo("K-0143");
    assertThat(read.at("/result/coverageFactor").asDouble()).isEqualTo(2);
  }

  @Test
  void readsATitrationWithALot() throws SQLException {
    JsonNode read = readLater(2);

    assertThat(read.get("titrant")).isEqualTo(stored.at("/2/determination/titrant"));
    assertThat(read.at("/replicates/0/titrantMl").asDouble()).isEqualTo(0.52);
  }

  @Test
  void readsAStandardisation() throws SQLException {
    JsonNode read = readLater(3);
    JsonNode readings = stored.at("/3/entered/readings");

    assertThat(read.get("lot").asText()).isEqualTo("hcl-07");
    assertThat(read.get("performedAt").asText()).isEqualTo("2026-03-02T07:30:00Z");
    readings.forEachEntry((field, value) -> assertThat(read.get(field)).as(field).isEqualTo(value));
    assertThat(read.get("titrant").isNull()).isTrue();
  }

  @Test
  void readsARemoval() throws SQLException {
    JsonNode read = readLater(4);

    assertThat(read.at("/from/inlet")).isEqualTo(stored.at("/4/entered/inlet"));
    assertThat(read.at("/from/outlet")).isEqualTo(stored.at("/4/entered/outlet"));
  }

  private JsonNode readLater(int i) throws SQLException {
    insert(ids[i], FIRST + 1, stored.get(i));
    return read(i);
  }

  /** Of 34.5, 43.0 and 39.0, two lie beyond 30 + 2 * 4; the first of them is only in the state. */
  @Test
  void goesOnFromTheStateOfTheRunRules() {
    JsonNode next = stream.recordAt(39, Instant.parse("2026-03-06T09:20:00Z"));

    assertThat(next.at("/control/signals").toString()).contains("two-of-three-beyond-2s");
  }

  /** What is answered of a stored result, in which all that was stored of it is found. */
  private JsonNode read(int i) {
    JsonNode read = json(200, get("/results/" + ids[i]));
    JsonNode determination = stored.get(i).get("determination");
    // What is answered beside it was not known when it was stored.
    determination
        .get("result")
        .forEachEntry(
            (field, value) -> assertThat(read.at("/result/" + field)).as(field).isEqualTo(value));
    assertThat(read.get("verdict")).isEqualTo(determination.get("verdict"));
    assertThat(read.get("cautions")).isEqualTo(determination.get("cautions"));
    return read;
  }

  private void insert(UUID id, int position, JsonNode row) throws SQLException {
    JsonNode entry = row.get("entered");
    String batch = entry.path("batch").asText(entry.path("lot").asText());
    String sampledAt = entry.path("sampledAt").asText(entry.path("performedAt").asText());
    double value = row.at("/determination/result/value").asDouble();
    String entered = row.get("entered").toString();
    String determination = row.get("determination").toString();
    // What was stored later came without a state of its own.
    String state = (row.has("run_state") ? row : stored.get(0)).get("run_state").toString();
    Object[] values = {
      stream.line,
      id,
      batch,
      sampledAt,
      sampledAt,
      id,
      position,
      batch,
      value,
      id,
      value,
      entered,
      determination,
      sampledAt,
      id,
      state
    };
    try (Connection connection = database.getConnection();
        PreparedStatement insert = connection.prepareStatement(INSERT)) {
      for (int i = 0; i < values.length; i++) {
        insert.setObject(i + 1, values[i]);
      }
      insert.executeUpdate();
    }
  }
}
