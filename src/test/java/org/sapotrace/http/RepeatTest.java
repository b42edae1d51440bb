package org.sapotrace.http;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/**
 * A request with an Idempotency-Key is carried out once, as the draft
 * draft-ietf-httpapi-idempotency-key-header wants it.
 */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class RepeatTest {

  private static final String RESULT =
      "{\"batch\": \"K-0142\", \"sampledAt\": \"2026-03-04T09:20:00Z\", \"values\": [%s]}";

  @Inject EntityManager database;

  private TestStream stream;
  private final String key = UUID.randomUUID().toString();

  @BeforeEach
  void putAStream() {
    stream = TestStream.soap();
  }

  @Test
  void isAnsweredAsTheFirstTime() {
    Response first = record(key, 31.2);
    Response repeat = record(key, 31.2);

    assertThat(first.statusCode()).isEqualTo(201);
    assertThat(repeat.statusCode()).isEqualTo(201);
    assertThat(repeat.asString()).isEqualTo(first.asString());
    assertThat(repeat.header("Location")).isEqualTo(first.header("Location"));
    assertThat(repeat.contentType()).isEqualTo(first.contentType());
    assertThat(recorded()).isEqualTo(1);
  }

  @Test
  void isKnownByItsKeyInQuotesOrWithout() {
    assertThat(record("\"" + key + "\"", 31.2).asString()).isEqualTo(record(key, 31.2).asString());
    assertThat(recorded()).isEqualTo(1);
  }

  @Test
  void isRefusedWithAnotherBody() {
    record(key, 31.2);
    Response other = record(key, 31.3);
    assertThat(json(422, other).get("detail").asText()).contains("another body");
    assertThat(recorded()).isEqualTo(1);
  }

  @Test
  void isAnotherRequestUnderAnotherAddressOrKey() {
    String elsewhere = TestStream.soap().path;
    String first = record(key, 31.2).jsonPath().getString("id");
    assertThat(send(elsewhere + "/results", key, RESULT.formatted(31.2)).jsonPath().getString("id"))
        .isNotEqualTo(first);
    assertThat(record(UUID.randomUUID().toString(), 31.2).jsonPath().getString("id"))
        .isNotEqualTo(first);
    assertThat(recorded()).isEqualTo(2);
  }

  /** Nothing was recorded, so that the repeat may find what the first lacked. */
  @Test
  void isJudgedAfreshAfterARefusal() {
    String limits = "{\"baseline\": {\"first\": 8}}";
    json(422, send(stream.path + "/limits", key, limits));
    for (int i = 0; i < 8; i++) {
      stream.record(30 + i % 3);
    }
    json(201, send(stream.path + "/limits", key, limits));
    Response repeat = send(stream.path + "/limits", key, limits);
    assertThat(json(201, repeat).get("revision").asInt()).isEqualTo(1);
    assertThat(repeat.header("Location")).endsWith(stream.path + "/limits/1");
  }

  @Test
  void waitsForItsTwin() throws Exception {
    ExecutorService clients = Executors.newFixedThreadPool(8);
    Set<String> answers = new HashSet<>();
    try {
      List<Future<Response>> sent = new ArrayList<>();
      for (int i = 0; i < 24; i++) {
        sent.add(clients.submit(() -> record(key, 31.2)));
      }
      for (Future<Response> answer : sent) {
        answers.add(json(201, answer.get()).toString());
      }
    } finally {
      clients.shutdownNow();
    }
    assertThat(answers).hasSize(1);
    assertThat(recorded()).isEqualTo(1);
  }

  @Test
  void isForgottenAfterADay() {
    record(key, 31.2);
    age("23 hours 59 minutes");
    record(key, 31.2);
    assertThat(recorded()).isEqualTo(1);
    age("24 hours 1 minute");
    json(201, record(key, 31.3));
    assertThat(recorded()).isEqualTo(2);
  }

  @Test
  void correctsOnce() {
    String result = stream.record(31.2).get("id").asText();
    String correction = "{\"reason\": \"a slip\", \"values\": [32.1]}";
    Response first = send("/results/" + result + "/corrections", key, correction);
    Response repeat = send("/results/" + result + "/corrections", key, correction);
    assertThat(repeat.asString()).isEqualTo(first.asString());
    assertThat(json(200, get("/results/" + result)).get("revision").asInt()).isEqualTo(2);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "\"\"", "naïve", "tab\there"})
  void needsAKeyThatIsOne(String none) {
    json(400, record(none, 31.2));
    assertThat(recorded()).isZero();
  }

  @Test
  void needsAKeyThatIsNotTooLong() {
    json(400, record("k".repeat(256), 31.2));
    json(201, record("k".repeat(200) + key, 31.2));
  }

  @Test
  void needsOneKeyOnly() {
    json(
        400,
        given()
            .contentType("application/json")
            .header("Idempotency-Key", "a", "b")
            .body(RESULT.formatted(31.2))
            .post("/api/v1" + stream.path + "/results"));
  }

  @Test
  void isNoMatterWhereNothingIsRecorded() {
    String body = "{\"alkali\": \"sodium\", \"soapMgPerKg\": %s}";
    json(200, send("/calculations/metal-equivalent", key, body.formatted(66)));
    json(200, send("/calculations/metal-equivalent", key, body.formatted(67)));
  }

  private Response record(String withKey, double value) {
    return send(stream.path + "/results", withKey, RESULT.formatted(value));
  }

  private static Response send(String path, String key, String body) {
    return given()
        .contentType("application/json")
        .header("Idempotency-Key", key)
        .body(body)
        .post("/api/v1" + path);
  }

  private int recorded() {
    return json(200, get(stream.path + "/results")).get("items").size();
  }

  private void age(String by) {
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                database
                    .createNativeQuery(
                        "update remembered_answer set asked_at = now() - cast(:by as interval)"
                            + " where key = :key")
                    .setParameter("by", by)
                    .setParameter("key", key)
                    .executeUpdate());
  }
}
