package org.sapotrace.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.http.Scope;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.KeysProfile;

@QuarkusTest
@TestProfile(KeysProfile.class)
class KeyTest extends KeysTest {

  private static final String READER = "{\"name\": \"a reader\", \"scopes\": [\"read\"]}";

  @Inject EntityManager database;

  @Test
  void isShownOnce() {
    JsonNode made = made(READER);
    String id = made.path("id").asText();
    String key = made.path("key").asText();

    assertThat(key).matches("sapo_" + id + "_[A-Za-z0-9_-]{43}");
    assertThat(made.path("createdBy").asText()).isEqualTo(administrator.substring(5, 21));
    String secret = key.substring(22);
    assertThat(get("/keys/" + id).asString()).contains(id).doesNotContain(secret);
    assertThat(get("/keys?limit=1000").asString()).contains(id).doesNotContain(secret);
    assertThat(kept(id)).contains("a reader").doesNotContain(secret);
  }

  @Test
  void isMadeOnceForARepeatThatDoesNotTellItsSecret() {
    String repeated = UUID.randomUUID().toString();
    JsonNode first = json(201, make(repeated));
    JsonNode repeat = json(201, make(repeated));

    assertThat(first.path("key").asText()).startsWith("sapo_");
    assertThat(repeat.path("key").isNull()).isTrue();
    assertThat(repeat.path("id")).isEqualTo(first.path("id"));
    assertThat(remembered(repeated))
        .contains(first.path("id").asText())
        .doesNotContain(first.path("key").asText().substring(22));
  }

  private static Response make(String repeated) {
    return Api.request()
        .contentType("application/json")
        .header("Idempotency-Key", repeated)
        .body(READER)
        .post("/api/v1/keys");
  }

  @Test
  void isGoodUntilItIsRevokedAndStaysOnRecord() {
    JsonNode made = made(READER);
    String path = "/keys/" + made.path("id").asText();
    Api.hold(made.path("key").asText());
    json(200, get("/lines"));
    Api.hold(administrator);

    JsonNode revoked = json(200, post(path + "/revocation", "{\"reason\": \"it was lost\"}"));

    assertThat(revoked.at("/revocation/reason").asText()).isEqualTo("it was lost");
    assertThat(revoked.at("/revocation/by").asText()).isEqualTo(administrator.substring(5, 21));
    assertThat(json(200, get(path))).isEqualTo(revoked);
    json(409, post(path + "/revocation", "{\"reason\": \"once more\"}"));
    Api.hold(made.path("key").asText());
    json(401, get("/lines"));
  }

  @Test
  void isGoodUntilItExpires() {
    JsonNode made =
        made(
            READER.replace(
                "}", ", \"expiresAt\": \"%s\"}".formatted(Instant.now().plusSeconds(60))));
    Api.hold(made.path("key").asText());
    json(200, get("/lines"));

    change("update api_key set expires_at = now() where id = :id", made.path("id").asText());

    json(401, get("/lines"));
  }

  @Test
  void tellsToTheMinuteWhenItWasUsedLast() {
    String id = key(List.of(Scope.READ)).key().id();
    KeyRing.Made used = key(List.of(Scope.READ));
    assertThat(json(200, get("/keys/" + id)).path("lastUsedAt").isNull()).isTrue();
    use(used);
    String first = lastUse(used);
    use(used);
    assertThat(lastUse(used)).isEqualTo(first);

    change(
        "update api_key set last_used_at = '2026-03-04T09:20:00Z' where id = :id", used.key().id());
    use(used);

    assertThat(Instant.parse(lastUse(used))).isAfterOrEqualTo(Instant.parse(first));
  }

  private void use(KeyRing.Made key) {
    Api.hold(key.text());
    json(200, get("/lines"));
    Api.hold(administrator);
  }

  private static String lastUse(KeyRing.Made key) {
    return json(200, get("/keys/" + key.key().id())).path("lastUsedAt").asText();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          "scopes": []                                                | #/scopes
          "scopes": ["write"]                                         | #/scopes/0
          "scopes": ["read"], "lines": []                             | #/lines
          "scopes": ["read"], "lines": ["no-such-line"]               | #/lines/0
          "scopes": ["administer"], "lines": ["no-such-line"]         | #/lines
          "scopes": ["read"], "expiresAt": "2026-03-04T09:20:00Z"     | #/expiresAt
          """)
  void isNotMadeOfWhatMakesNoSense(String fields, String pointer) {
    Response answer = post("/keys", "{\"name\": \"a\", %s}".formatted(fields));

    assertThat(answer.statusCode()).isIn(400, 422);
    assertThat(answer.jsonPath().getString("errors[0].pointer")).isEqualTo(pointer);
  }

  @Test
  void listsKeysAsTheyWereMadePageByPage() {
    List<String> made = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      made.add(key(List.of(Scope.READ)).key().id());
    }
    List<String> listed = new ArrayList<>();
    String next = null;
    do {
      JsonNode page = json(200, get("/keys?limit=2" + (next == null ? "" : "&cursor=" + next)));
      page.path("items").forEach(key -> listed.add(key.path("id").asText()));
      next = page.path("next").isNull() ? null : page.path("next").asText();
    } while (next != null);

    assertThat(listed).containsSubsequence(made).doesNotHaveDuplicates();
  }

  /** Two keys are two callers, though they choose the same Idempotency-Key. */
  @Test
  void keepsTheRepeatsOfCallersApart() {
    String stream = Api.TestStream.soap().path;
    String repeated = UUID.randomUUID().toString();
    Response first = record(stream, repeated, administrator);
    Response repeat = record(stream, repeated, administrator);
    Response other = record(stream, repeated, key(List.of(Scope.RECORD)).text());

    assertThat(repeat.asString()).isEqualTo(first.asString());
    assertThat(json(201, other).path("id")).isNotEqualTo(json(201, first).path("id"));
  }

  private static Response record(String stream, String repeated, String key) {
    Api.hold(key);
    return Api.request()
        .contentType("application/json")
        .header("Idempotency-Key", repeated)
        .body("{\"batch\": \"B\", \"sampledAt\": \"2026-03-04T09:20:00Z\", \"values\": [31.2]}")
        .post("/api/v1" + stream + "/results");
  }

  @Test
  void isShownByTheServiceWhereNoneAdministersAnyMore() throws Exception {
    assertThat(keyRing.makeFirst()).isEmpty();
    keyRing.after(null, 10_000).stream()
        .filter(key -> key.revocation() == null)
        .forEach(key -> keyRing.revoke(key.id(), "all of them"));

    List<KeyRing.Made> shown = new ArrayList<>();
    ExecutorService processes = Executors.newFixedThreadPool(8);
    try {
      List<Future<Optional<KeyRing.Made>>> starts = new ArrayList<>();
      for (int i = 0; i < 8; i++) {
        starts.add(processes.submit(keyRing::makeFirst));
      }
      for (Future<Optional<KeyRing.Made>> start : starts) {
        start.get().ifPresent(shown::add);
      }
    } finally {
      processes.shutdownNow();
    }

    assertThat(shown).hasSize(1);
    Api.hold(shown.get(0).text());
    assertThat(json(200, get("/keys/" + shown.get(0).key().id())).path("createdBy").isNull())
        .isTrue();
  }

  private String kept(String id) {
    return one("select cast(k as text) from api_key k where id = :id", id);
  }

  private String remembered(String repeated) {
    return one("select body from remembered_answer where key = :id", repeated);
  }

  private String one(String sql, String id) {
    return QuarkusTransaction.requiringNew()
        .call(
            () ->
                String.valueOf(
                    database.createNativeQuery(sql).setParameter("id", id).getSingleResult()));
  }

  private void change(String sql, String id) {
    QuarkusTransaction.requiringNew()
        .run(() -> database.createNativeQuery(sql).setParameter("id", id).executeUpdate());
  }
}
