package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Wash.at;
import static org.sapotrace.testing.Wash.body;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/** Both sides of a wash at the same time: nothing is lost, and nobody waits in a circle. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class RemovalMeanwhileTest {

  private static final int BATCHES = 25;

  @Inject DataSource database;

  /** Each has recorded its side, and sees nothing of the other, when both wait for the removals. */
  @Test
  void findsABatchWhoseSidesAreRecordedAtTheSameTime() throws SQLException {
    Wash wash = Wash.watched();
    List<Response> answers =
        heldUp(
            "washed-removal",
            wash,
            List.of(
                () -> post(wash.path + "crude/results", body("K-1", 0, 500)),
                () -> post(wash.path + "washed/results", body("K-1", 1, 50))));

    assertThat(answers).extracting(Response::statusCode).containsOnly(201);
    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(1));
  }

  @Test
  void findsABatchRecordedWhileTheInletIsPut() throws SQLException {
    Wash wash = Wash.unwatched();
    wash.record("washed", "K-1", 1, 50);
    List<Response> answers =
        heldUp(
            "crude",
            wash,
            List.of(
                () -> post(wash.path + "crude/results", body("K-1", 0, 500)),
                () -> wash.watch("washed", "crude")));

    assertThat(answers).extracting(Response::statusCode).containsExactly(201, 200);
    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(1));
  }

  /** The answers of requests that all wait, in this order, for a stream that somebody holds. */
  private List<Response> heldUp(String stream, Wash wash, List<Supplier<Response>> requests)
      throws SQLException {
    try (Connection connection = database.getConnection();
        Statement statement = connection.createStatement()) {
      connection.setAutoCommit(false);
      statement.executeQuery(
          "select 1 from stream where line = '%s' and slug = '%s' for update"
              .formatted(wash.line, stream));
      List<CompletableFuture<Response>> answers = new ArrayList<>();
      for (Supplier<Response> request : requests) {
        answers.add(inAThread(request));
        await().until(() -> waiting(statement) == answers.size());
      }
      connection.commit();
      return answers.stream().map(CompletableFuture::join).toList();
    }
  }

  private static int waiting(Statement statement) throws SQLException {
    try (ResultSet waiting =
        statement.executeQuery(
            // Not of the activities, which a transaction sees as they were when it first looked.
            "select count(distinct pid) from pg_locks where not granted")) {
      waiting.next();
      return waiting.getInt(1);
    }
  }

  /** Three steps one behind the other, recorded, limited and put again all at once. */
  @Test
  void letsEverybodyGoOn() {
    Wash wash = Wash.watched();
    json(201, wash.watch("polished", "washed"));
    List<CompletableFuture<List<Integer>>> all =
        List.of(
            repeated(i -> post(wash.path + "crude/results", body("K-" + i, 3 * i, 500))),
            repeated(i -> post(wash.path + "washed/results", body("K-" + i, 3 * i + 1, 50))),
            repeated(i -> post(wash.path + "polished/results", body("K-" + i, 3 * i + 2, 5))),
            repeated(i -> wash.watch("washed", i % 2 == 0 ? null : "crude")),
            repeated(i -> post(wash.path + "washed/limits", "{\"baseline\": {\"first\": 8}}")));

    assertThat(all.stream().map(CompletableFuture::join).flatMap(List::stream).distinct())
        .isSubsetOf(200, 201, 422);
    json(200, wash.watch("washed", "crude"));
    assertThat(wash.points("washed-removal")).hasSize(BATCHES);
    assertThat(wash.points("polished-removal")).hasSize(BATCHES);
    assertThat(wash.points("washed-removal")).allMatch(p -> isLn10(p.get("value").asDouble()));
    assertThat(wash.points("polished-removal")).allMatch(p -> isLn10(p.get("value").asDouble()));
  }

  private static boolean isLn10(double value) {
    return Math.abs(value - Math.log(10)) < 1e-12;
  }

  private static CompletableFuture<List<Integer>> repeated(IntFunction<Response> request) {
    return inAThread(
        () -> {
          List<Integer> statuses = new ArrayList<>();
          for (int i = 0; i < BATCHES; i++) {
            statuses.add(request.apply(i).statusCode());
          }
          return statuses;
        });
  }

  /** In one of its own: the common ones are too few to wait for each other. */
  private static <T> CompletableFuture<T> inAThread(Supplier<T> task) {
    return CompletableFuture.supplyAsync(task, each -> new Thread(each).start());
  }
}
