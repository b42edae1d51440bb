package org.sapotrace.access;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import java.io.IOException;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.function.Consumer;
import org.jose4j.jwt.JwtClaims;
import org.jose4j.jwt.NumericDate;
import org.junit.jupiter.api.Test;
import org.sapotrace.http.Scope;
import org.sapotrace.testing.KeysProfile;
import org.sapotrace.testing.RawHttp;
import org.sapotrace.testing.TestIssuer;

@QuarkusTest
@TestProfile(KeysProfile.class)
class TokensTest extends IssuerTest {

  /**
   * OpenID Connect Core 1.0, section 3.1.3.7, points 2, 3, 6 and 9 (issuer, audience, signature,
   * expiry); RFC 9068, section 2.2 (subject); RFC 7519, section 4.1.5 (not before).
   */
  @Test
  void needATokenThatIsGoodNowAndForThisService() {
    assertThat(lines(issuer.signed(claims("ada", "read"))).status()).isEqualTo(200);
    assertBad(changed(c -> c.setExpirationTimeMinutesInTheFuture(-1)));
    assertBad(changed(c -> c.unsetClaim("exp")));
    assertBad(changed(c -> c.unsetClaim("iat")));
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
