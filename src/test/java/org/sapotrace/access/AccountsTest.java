package org.sapotrace.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import io.restassured.response.Response;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jose4j.jwt.JwtClaims;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.KeysProfile;
import org.sapotrace.testing.RawHttp;

@QuarkusTest
@TestProfile(KeysProfile.class)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class AccountsTest extends IssuerTest {

  private static final String RESULT =
      "{\"batch\": \"B\", \"sampledAt\": \"2026-03-04T09:20:00Z\", \"values\": [31.2]}";

  /**
   * The issuer did not answer while the service started, either. First, since what an issuer once
   * said of its keys is kept.
   */
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
    String line = Api.TestStream.soap().line;
    JsonNode entries = json(200, Api.get("/ledger?line=" + line));
    assertThat(entries.findValuesAsText("actor")).isNotEmpty().containsOnly(id);
    // A digest may spell "ada" by chance.
    assertThat(entries.toString())
        .doesNotContainIgnoringCase("0f1d-ada")
        .doesNotContainIgnoringCase("ada winter")
        .doesNotContainIgnoringCase("ada@");
    Api.hold(token("0f1d-ada", "administer"));
    assertThat(made("{\"name\": \"b\", \"scopes\": [\"read\"]}").path("createdBy").asText())
        .isEqualTo(id);
    Api.hold(token("0f1d-bo", "administer"));
    assertThat(made("{\"name\": \"c\", \"scopes\": [\"read\"]}").path("createdBy").asText())
        .startsWith("person-")
        .isNotEqualTo(id);
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
}
