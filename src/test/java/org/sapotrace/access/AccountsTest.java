package org.sapotrace.access;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import io.restassured.response.Response;
import java.io.IOException;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Consumer;
import org.jose4j.jwt.JwtClaims;
import org.jose4j.jwt.NumericDate;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.sapotrace.http.Scope;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.IssuerResource;
import org.sapotrace.testing.KeysProfile;
import org.sapotrace.testing.RawHttp;
import org.sapotrace.testing.TestIssuer;

@QuarkusTest
@TestProfile(KeysProfile.class)
@WithTestResource(IssuerResource.class)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class AccountsTest extends KeysTest {

  private static final String RESULT =
      "{\"batch\": \"B\", \"sampledAt\": \"2026-03-04T09:20:00Z\", \"values\": [31.2]}";

  TestIssuer issuer;

  @BeforeEach
  void joinTheIssuer() {
    issuer.join();
  }

  private String token(String subject, String... scopes) {
    return issuer.signed(claims(subject, scopes));
  }

  private JwtClaims claims(String subject, String... scopes) {
    JwtClaims claims =
        issuer.claims(subject, List.of(scopes).stream().map("sapotrace:"::concat).toList());
    claims.setClaim("plant", Map.of("lines", List.of("*")));
    return claims;
  }

  private RawHttp.Answer lines(String token) {
    return http().get("/api/v1/lines?limit=1", bearer(token));
  }

  /** The issuer did not answer while the service started, either. */
  @Test
  @Order(1)
  void areRefusedForTheTimeBeingWhileTheirIssuerIsAway() throws IOException {
    issuer.part();
    String early = token("ada", "read");

    RawHttp.Answer refused = lines(early);

    assertThat(refused.status()).isEqualTo(503);
    assertThat(refused.header("Retry-After")).isEqualTo("5");
    assertThat(refused.header("Content-Type")).isEqualTo("application/problem+json");
    assertThat(refused.body()).contains("/problems/unavailable").doesNotContain(early);
    assertThat(lines(administrator).status()).isEqualTo(200);
    assertThat(http().get("/q/health/ready").status()).isEqualTo(200);
    issuer.join();
    assertThat(lines(early).status()).isEqualTo(200);
  }

  @Test
  void doWhatTheirScopesLet() {
    Api.TestStream stream = Api.TestStream.soap();
    Api.hold(token("ada", "record", "something-else"));
    json(201, Api.post(stream.path + "/results", RESULT));

    JsonNode refused = json(403, Api.get("/lines"));
    assertThat(refused.path("detail").asText()).contains("\"read\"");
    json(403, Api.put(stream.path.replace("/streams/watched", ""), "{}"));
    Api.hold(token("ada", "read"));
    json(200, Api.get("/lines"));
    json(403, Api.post(stream.path + "/results", RESULT));
  }

  /** Not even where any key will do. */
  @Test
  void areNoneOfOursWithoutAScopeOfOurs() {
    JwtClaims claims =
        issuer.claims("ada", List.of("read", "SAPOTRACE:READ", "sapotrace:", "boss"));
    for (String path : List.of("/api/v1/lines", "/q/metrics")) {
      RawHttp.Answer answer = http().get(path, bearer(issuer.signed(claims)));
      assertThat(answer.status()).isEqualTo(403);
      assertThat(answer.body()).contains("sapotrace:read").contains("\\\"roles\\\"");
    }
  }

  @Test
  void touchTheLinesThatTheirTokenNames() {
    Api.TestStream own = Api.TestStream.soap();
    Api.TestStream other = Api.TestStream.soap();
    JwtClaims claims = claims("ada", "read", "record");
    claims.setClaim("plant", Map.of("lines", List.of(own.line)));
    Api.hold(issuer.signed(claims));

    json(201, Api.post(own.path + "/results", RESULT));
    json(404, Api.post(other.path + "/results", RESULT));
    json(404, Api.get("/lines/" + other.line));
    JsonNode listed = json(200, Api.get("/lines?limit=1000")).path("items");
    assertThat(listed).hasSize(1);
    assertThat(listed.at("/0/line").asText()).isEqualTo(own.line);
  }

  @Test
  void touchNoLineWhereTheirTokenNamesNone() {
    JwtClaims claims = claims("ada", "read");
    claims.unsetClaim("plant");
    assertThat(lines(issuer.signed(claims)).status()).isEqualTo(403);
    claims.setClaim("plant", Map.of("lines", Map.of("a", "*")));
    assertThat(lines(issuer.signed(claims)).status()).isEqualTo(403);
  }

  @Test
  void administerOnEveryLineOrNotAtAll() {
    JwtClaims claims = claims("ada", "administer");
    json(200, held(claims));
    claims.setClaim("plant", Map.of("lines", List.of(Api.TestStream.soap().line)));

    assertThat(json(403, held(claims)).path("detail").asText()).contains("administers");
  }

  private Response held(JwtClaims claims) {
    Api.hold(issuer.signed(claims));
    Response answer = Api.get("/keys?limit=1");
    Api.hold(administrator);
    return answer;
  }

  /** OpenID Connect Core 1.0, section 2: issuer and subject together never tell of another. */
  @Test
  void areKnownByIssuerAndSubjectAndByNothingElse() {
    JwtClaims claims = claims("0f1d-ada", "administer");
    claims.setStringClaim("name", "Ada Winter");
    claims.setStringClaim("email", "ada@plant.example");
    Api.hold(issuer.signed(claims));
    JsonNode made = made("{\"name\": \"a reader\", \"scopes\": [\"read\"]}");
    String id = made.path("createdBy").asText();

    assertThat(id).matches("person-[0-9a-f]{32}");
    assertThat(actors()).contains(id).doesNotContain("ada");
    Api.hold(token("0f1d-ada", "administer"));
    assertThat(made("{\"name\": \"b\", \"scopes\": [\"read\"]}").path("createdBy").asText())
        .isEqualTo(id);
    Api.hold(token("0f1d-bo", "administer"));
    assertThat(made("{\"name\": \"c\", \"scopes\": [\"read\"]}").path("createdBy").asText())
        .startsWith("person-")
        .isNotEqualTo(id);
  }

  private static String actors() {
    return json(200, Api.get("/ledger?limit=1000")).findValuesAsText("actor").toString();
  }

  @Test
  void haveRepeatsOfTheirOwn() {
    Api.TestStream stream = Api.TestStream.soap();
    String repeated = UUID.randomUUID().toString();
    String ada = recorded(stream, repeated, token("ada", "record"));

    assertThat(recorded(stream, repeated, token("ada", "record"))).isEqualTo(ada);
    assertThat(recorded(stream, repeated, token("bo", "record"))).isNotEqualTo(ada);
  }

  private String recorded(Api.TestStream stream, String repeated, String token) {
    Api.hold(token);
    return json(
            201,
            Api.request()
                .contentType("application/json")
                .header("Idempotency-Key", repeated)
                .body(RESULT)
                .post("/api/v1" + stream.path + "/results"))
        .path("id")
        .asText();
  }

  @Test
  void haveALimitOfTheirOwn() {
    String first = lines(token("cleo", "read")).header("RateLimit");
    String second = lines(token("cleo", "read")).header("RateLimit");

    assertThat(first).startsWith("\"key\";r=");
    // A minute may end between them.
    assertThat(left(second)).isIn(left(first) - 1, KeysProfile.PER_MINUTE - 1);
    assertThat(left(lines(token("dan", "read")).header("RateLimit")))
        .isEqualTo(KeysProfile.PER_MINUTE - 1);
  }

  private static int left(String limit) {
    return Integer.parseInt(limit.replaceAll(".*r=(\\d+).*", "$1"));
  }

  /**
   * OpenID Connect Core 1.0, section 3.1.3.7, points 2, 3, 6 and 9 (issuer, audience, signature,
   * expiry); RFC 9068, section 2.2 (subject); RFC 7519, section 4.1.5 (not before).
   */
  @Test
  void needATokenThatIsGoodNowAndForThisService() {
    assertThat(lines(issuer.signed(claims("ada", "read"))).status()).isEqualTo(200);
    assertBad(changed(c -> c.setExpirationTimeMinutesInTheFuture(-1)));
    assertBad(changed(c -> c.unsetClaim("exp")));
    assertBad(changed(c -> c.setNotBefore(NumericDate.fromMilliseconds(4_102_444_800_000L))));
    assertBad(changed(c -> c.setAudience("another-service")));
    assertBad(changed(c -> c.setAudience(TestIssuer.AUDIENCE + "x", "any")));
    assertBad(changed(c -> c.unsetClaim("aud")));
    assertBad(changed(c -> c.setIssuer("https://accounts.other.example")));
    assertBad(changed(c -> c.setIssuer(issuer.address() + "/")));
    assertBad(changed(c -> c.unsetClaim("iss")));
    assertBad(changed(c -> c.unsetClaim("sub")));
    assertBad(changed(c -> c.setClaim("sub", 7)));
    assertThat(lines(changed(c -> c.setAudience("x", TestIssuer.AUDIENCE))).status())
        .isEqualTo(200);
  }

  private String changed(Consumer<JwtClaims> change) {
    JwtClaims claims = claims("ada", "read");
    change.accept(claims);
    return issuer.signed(claims);
  }

  /** RFC 8725, sections 2.1, 3.1 and 3.2: the algorithm is not the sender's choice. */
  @Test
  void needASignatureByTheIssuersKey() {
    JwtClaims claims = claims("ada", "read");
    String good = issuer.signed(claims);
    assertThat(lines(good).status()).isEqualTo(200);
    assertBad(issuer.forged(claims));
    assertBad(issuer.unsecured(claims));
    assertBad(issuer.signedByThePublicKeyAsASecret(claims));
    assertBad(good.substring(0, good.lastIndexOf('.') + 1));
    String[] parts = good.split("\\.");
    claims.setStringListClaim("roles", List.of("sapotrace:administer"));
    assertBad(parts[0] + "." + issuer.signed(claims).split("\\.")[1] + "." + parts[2]);
    assertBad("a.b.c");
    assertBad("e30.e30.");
    assertBad("e30.W10.e30");
    assertBad(good + ".e30");
  }

  private void assertBad(String token) {
    RawHttp.Answer answer = lines(token);
    assertThat(answer.status()).as(token).isEqualTo(401);
    assertThat(answer.header("Content-Type")).isEqualTo("application/problem+json");
    assertThat(answer.body()).contains("/problems/unauthenticated").doesNotContain(token);
    // Of a header that comes twice this client keeps the last.
    assertThat(
            http().request("POST", "/api/v1/keys", null, bearer(token)).header("WWW-Authenticate"))
        .isEqualTo("Bearer realm=\"Sapotrace\", error=\"invalid_token\"");
  }

  /** RFC 6750 knows a token as Bearer; the pages are for keys. */
  @Test
  void areNotTakenAsAPassword() {
    String pair =
        Base64.getEncoder().encodeToString(("ada:" + token("ada", "read")).getBytes(UTF_8));
    assertThat(http().get("/", "Authorization: Basic " + pair).status()).isEqualTo(401);
    String key = key(List.of(Scope.READ)).text();
    String good = Base64.getEncoder().encodeToString(("ada:" + key).getBytes(UTF_8));
    assertThat(http().get("/", "Authorization: Basic " + good).status()).isEqualTo(200);
  }

  /** OpenID Connect Core 1.0, section 10.1.1: keys are changed by using a new kid. */
  @Test
  void areKnownByANewKeyOfTheirIssuerAndNoLongerByTheOld() {
    String before = token("ada", "read");
    assertThat(lines(before).status()).isEqualTo(200);
    issuer.changeKey();
    String after = token("ada", "read");

    await()
        .atMost(Duration.ofSeconds(20))
        .untilAsserted(() -> assertThat(lines(after).status()).isEqualTo(200));
    assertThat(lines(before).status()).isEqualTo(401);
  }

  @Test
  void areKnownByKeysThatAreKnownWhileTheirIssuerIsAway() throws IOException {
    String good = token("ada", "read");
    assertThat(lines(good).status()).isEqualTo(200);
    issuer.part();

    assertThat(lines(good).status()).isEqualTo(200);
    String unknown = issuer.signedByAnUnknownKey(claims("ada", "read"));
    await()
        .atMost(Duration.ofSeconds(20))
        .untilAsserted(() -> assertThat(lines(unknown).status()).isEqualTo(503));
    issuer.join();
    assertThat(lines(good).status()).isEqualTo(200);
  }
}
