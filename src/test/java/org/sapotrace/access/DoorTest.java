package org.sapotrace.access;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.json;

import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.http.Scope;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.KeysProfile;
import org.sapotrace.testing.RawHttp;

@QuarkusTest
@TestProfile(KeysProfile.class)
class DoorTest extends KeysTest {

  private static final String UNKNOWN = "sapo_0123456789abcdef_" + "A".repeat(43);

  /** Each of them would be refused for something else as well, or answered without asking a key. */
  @ParameterizedTest
  @CsvSource({
    "GET, /",
    "GET, /api/v1/lines",
    "GET, /nowhere",
    "GET, http://localhost/api/v1/lines",
    "GET, /q/openapi",
    "GET, /q/metrics",
    "GET, /q",
    "GET, /q/healthy",
    "GET, /q/health/../../api/v1/lines",
    "GET, /q/health/%2e%2e/%2e%2e/api/v1/lines",
    "GET, /q/health/live/../../../api/v1/lines",
    "GET, //q/health",
    "GET, /api/v1/lines;q=/q/health",
    "GET, /api/v1/lines?surplus=1",
    "OPTIONS, /api/v1/lines",
    "HEAD, /api/v1/lines",
    "DELETE, /api/v1/lines",
    "BREW, /api/v1/lines",
    "POST, /api/v1/keys",
    "PUT, /api/v1/lines/harbour"
  })
  void answersNothingWithoutAKey(String method, String target) {
    RawHttp.Answer answer = http().request(method, target, method.equals("PUT") ? "{no" : null);

    assertUnauthenticated(answer, method);
    assertThat(answer.header("WWW-Authenticate")).contains(" realm=\"Sapotrace\"");
  }

  @Test
  void looksAtTheKeyBeforeAnythingElse() {
    assertUnauthenticated(http().get("/" + "a".repeat(5_000)), "GET");
    assertUnauthenticated(http().get("/", "X-Long: " + "a".repeat(20_000)), "GET");
    assertUnauthenticated(
        http().request("POST", "/api/v1/keys", "x", "Content-Type: text/plain"), "POST");
    assertUnauthenticated(http().request("POST", "/api/v1/keys", " ".repeat(1 << 21)), "POST");
    assertUnauthenticated(http().get("/", "Host: plant.example"), "GET");
  }

  @ParameterizedTest
  @ValueSource(strings = {"/q/health", "/q/health/live", "/q/health/ready"})
  void tellsAnybodyWhetherItLives(String path) {
    assertThat(http().get(path).status()).isEqualTo(200);
  }

  @Test
  void refusesKeysThatAreNotGood() {
    KeyRing.Made one = key(List.of(Scope.READ));
    KeyRing.Made other = key(List.of(Scope.READ));
    KeyRing.Made revoked = key(List.of(Scope.READ));
    assertThat(lines(bearer(revoked.text())).status()).isEqualTo(200);
    keyRing.revoke(revoked.key().id(), "it was lost");
    String mixed = other.text().substring(0, 22) + one.text().substring(22);

    for (String bad :
        List.of(
            UNKNOWN,
            revoked.text(),
            mixed,
            one.text() + "A",
            one.text().substring(0, 64),
            one.text().toUpperCase(java.util.Locale.ROOT),
            one.key().id(),
            "\u00e9")) {
      RawHttp.Answer answer = lines(bearer(bad));
      assertUnauthenticated(answer, "GET");
      assertThat(answer.body()).doesNotContain(bad);
    }
    assertThat(lines(bearer(UNKNOWN)).header("WWW-Authenticate")).doesNotContain("Bearer,");
  }

  /** RFC 6750, section 3: a token that is not good is told as such, none at all is not. */
  @Test
  void saysWhatIsWantedAndWhetherTheKeyIsToBlame() {
    assertThat(challenge("POST", "/api/v1/keys")).isEqualTo("Bearer realm=\"Sapotrace\"");
    assertThat(challenge("POST", "/api/v1/keys", bearer(UNKNOWN)))
        .isEqualTo("Bearer realm=\"Sapotrace\", error=\"invalid_token\"");
    assertThat(challenge("GET", "/")).isEqualTo("Basic realm=\"Sapotrace\", charset=\"UTF-8\"");
  }

  private String challenge(String method, String target, String... headers) {
    // Of a header that comes twice this client keeps the last.
    return http().request(method, target, null, headers).header("WWW-Authenticate");
  }

  @Test
  void takesAKeyOnceAndInTheHeaderOnly() {
    String good = bearer(administrator);
    assertThat(lines(good).status()).isEqualTo(200);
    assertThat(lines("authorization:  bearer   " + administrator).status()).isEqualTo(200);

    assertUnauthenticated(lines(good, good), "GET");
    assertUnauthenticated(lines("Authorization: " + administrator), "GET");
    assertUnauthenticated(lines("Authorization: Digest " + administrator), "GET");
    assertUnauthenticated(lines("Cookie: key=" + administrator), "GET");
    assertUnauthenticated(http().get("/api/v1/lines?key=" + administrator), "GET");
  }

  /** What a browser sends of its own accord looks, and changes nothing through the interface. */
  @Test
  void takesAKeyAsAPasswordToLookOnly() {
    String basic = basic("anybody:" + administrator);
    assertThat(lines(basic).status()).isEqualTo(200);
    assertUnauthenticated(lines(basic(administrator)), "GET");
    assertUnauthenticated(lines(basic(administrator + ":")), "GET");
    assertUnauthenticated(lines("Authorization: Basic =:="), "GET");

    for (String target :
        List.of(
            "/api/v1/lines/harbour",
            "/lines/../api/v1/lines/harbour",
            "/lines/%2e%2e/api/v1/lines/harbour",
            "//api/v1/lines/harbour")) {
      assertUnauthenticated(
          http()
              .request(
                  "PUT",
                  target,
                  "{\"name\": \"A\", \"alkali\": \"sodium\"}",
                  "Content-Type: application/json",
                  basic),
          "PUT");
    }
  }

  @Test
  void readsTheWholeBodyOfWhomItLetsIn() {
    Api.TestStream stream = Api.TestStream.soap();
    StringBuilder rows = new StringBuilder();
    for (int i = 0; i < 20_000; i++) {
      rows.append(
          "{\"batch\": \"B\", \"sampledAt\": \"2026-03-01T09:00:00Z\", \"values\": [%d]}\n"
              .formatted(i));
    }
    rows.append("the last");
    byte[] body = rows.toString().getBytes(UTF_8);

    var answer =
        Api.request()
            .contentType("application/x-ndjson")
            .body(body)
            .post("/api/v1" + stream.path + "/imports?atomic=true");

    assertThat(json(200, answer).at("/refused/0/row").asInt()).isEqualTo(20_001);
  }

  @Test
  void answersBeyondTheLimitWithATimeToGoOn() {
    String key = key(List.of(Scope.READ)).text();
    List<RawHttp.Answer> answers = new ArrayList<>();
    // A minute may end meanwhile, and another begin.
    while (answers.size() < 2 * KeysProfile.PER_MINUTE
        && (answers.isEmpty() || answers.get(answers.size() - 1).status() == 200)) {
      answers.add(http().get("/api/v1/balances?limit=1", bearer(key)));
    }
    RawHttp.Answer first = answers.get(0);
    RawHttp.Answer last = answers.get(answers.size() - 1);

    assertThat(first.header("RateLimit-Policy")).isEqualTo("\"key\";q=500;w=60");
    assertThat(first.header("RateLimit")).startsWith("\"key\";r=499;t=");
    assertThat(last.status()).isEqualTo(429);
    assertThat(last.body()).contains("/problems/too-many-requests");
    assertThat(last.header("RateLimit")).startsWith("\"key\";r=0;t=");
    assertThat(last.header("RateLimit")).endsWith(";t=" + last.header("Retry-After"));
    assertThat(lines(bearer(administrator)).status()).isEqualTo(200);
  }

  private RawHttp.Answer lines(String... headers) {
    return http().get("/api/v1/lines", headers);
  }

  private static String basic(String pair) {
    return "Authorization: Basic " + Base64.getEncoder().encodeToString(pair.getBytes(UTF_8));
  }

  private static void assertUnauthenticated(RawHttp.Answer answer, String method) {
    assertThat(answer.status()).isEqualTo(401);
    assertThat(answer.header("Content-Type")).isEqualTo("application/problem+json");
    assertThat(answer.header("Cache-Control")).isEqualTo("no-store");
    if (!method.equals("HEAD")) {
      assertThat(answer.body()).contains("/problems/unauthenticated");
    }
  }
}
