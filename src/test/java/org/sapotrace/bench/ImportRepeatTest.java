package org.sapotrace.bench;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.net.URI;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RawHttp;

/** An import with an Idempotency-Key records each row once, however often it is sent. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ImportRepeatTest {

  private static final String ROW =
      "{\"batch\": \"B\", \"sampledAt\": \"2026-03-01T%02d:%02d:%02dZ\", \"values\": [%d]}\n";

  @Inject EntityManager database;

  @TestHTTPResource("/")
  URI service;

  private TestStream stream;
  private final String key = UUID.randomUUID().toString();

  @BeforeEach
  void putAStream() {
    stream = TestStream.soap();
    stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 3}}");
  }

  @Test
  void isAnsweredAsTheFirstTime() {
    String body = rows(0, 1200) + "{}\n" + rows(1200, 100);
    Response first = send(body, false);
    assertThat(json(200, first).get("accepted").asInt()).isEqualTo(1300);
    assertThat(send(body, false).asString()).isEqualTo(first.asString());
    assertThat(recorded()).isEqualTo(1300);
  }

  @Test
  void goesOnBehindTheLastBlockWhereItBrokeOff() {
    String body = rows(0, 2500);
    String head =
        "POST /api/v1%s/imports HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/x-ndjson\r\nIdempotency-Key: %s\r\nContent-Length: %d\r\n\r\n"
            .formatted(stream.path, key, body.length());
    new RawHttp(service.getPort())
        .hangUpAfter(
            (head + body.substring(0, body.length() - 40)).getBytes(US_ASCII),
            () -> await().until(() -> recorded() >= 2000));
    assertThat(recorded()).isEqualTo(2000);

    JsonNode answer = json(200, send(body, false));
    assertThat(answer.get("accepted").asInt()).isEqualTo(2500);
    assertThat(recorded()).isEqualTo(2500);
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 999, 1000, 1500})
  void isRefusedWithAnotherBody(int length) {
    json(200, send(rows(0, 1000), false));
    Response other =
        send(length == 1000 ? rows(0, 1000).replace("[30]", "[35]") : rows(0, length), false);
    assertThat(json(422, other).get("detail").asText()).contains("another body");
    assertThat(recorded()).isEqualTo(1000);
  }

  @Test
  void sharesTheWorkWithItsTwins() {
    String body = rows(0, 5000);
    List<CompletableFuture<Response>> twins =
        Stream.generate(() -> CompletableFuture.supplyAsync(() -> send(body, false)))
            .limit(3)
            .toList();
    assertThat(twins.stream().map(twin -> json(200, twin.join()).get("accepted").asInt()))
        .containsOnly(5000);
    assertThat(recorded()).isEqualTo(5000);
  }

  @Test
  void isCarriedOutOnceAsAWhole() {
    String body = rows(0, 1200);
    Response first = send(body, true);
    assertThat(json(200, first).get("accepted").asInt()).isEqualTo(1200);
    assertThat(send(body, true).asString()).isEqualTo(first.asString());
    json(422, send(rows(0, 1201), true));
    assertThat(recorded()).isEqualTo(1200);
  }

  /** Nothing was recorded, so that the repeat may find what the first lacked. */
  @Test
  void isJudgedAfreshAsAWholeAfterARefusal() {
    assertThat(json(200, send(rows(0, 3) + "{}", true)).get("accepted").asInt()).isZero();
    assertThat(json(200, send(rows(0, 3), true)).get("accepted").asInt()).isEqualTo(3);
  }

  @Test
  void isForgottenAsAWholeAfterADay() {
    json(200, send(rows(0, 1500), false));
    age("23 hours 59 minutes");
    json(200, send(rows(0, 1500), false));
    assertThat(recorded()).isEqualTo(1500);
    age("24 hours 1 minute");
    json(200, send(rows(0, 1500), false));
    assertThat(recorded()).isEqualTo(3000);
  }

  @Test
  void needsAKeyThatIsOne() {
    Response none =
        Api.request()
            .contentType("application/x-ndjson")
            .header("Idempotency-Key", "naïve")
            .body(rows(0, 1).getBytes(US_ASCII))
            .post("/api/v1" + stream.path + "/imports");
    json(400, none);
    assertThat(recorded()).isZero();
  }

  private Response send(String body, boolean atomic) {
    return Api.request()
        .contentType("application/x-ndjson")
        .header("Idempotency-Key", key)
        .body(body.getBytes(US_ASCII))
        .post("/api/v1" + stream.path + "/imports" + (atomic ? "?atomic=true" : ""));
  }

  private static String rows(int from, int count) {
    StringBuilder rows = new StringBuilder();
    for (int i = from; i < from + count; i++) {
      rows.append(ROW.formatted(i / 3600, i / 60 % 60, i % 60, 28 + i % 5));
    }
    return rows.toString();
  }

  private long recorded() {
    return QuarkusTransaction.requiringNew()
        .call(
            () ->
                (Long)
                    database
                        .createNativeQuery(
                            "select count(*) from result r join stream s on s.id = r.stream_id"
                                + " where s.line = :line",
                            Long.class)
                        .setParameter("line", stream.line)
                        .getSingleResult());
  }

  private void age(String by) {
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                database
                    .createNativeQuery(
                        "update remembered_part set asked_at = now() - cast(:by as interval)"
                            + " where key = :key")
                    .setParameter("by", by)
                    .setParameter("key", key)
                    .executeUpdate());
  }
}
