package org.sapotrace.access;

import io.quarkus.test.common.WithTestResource;
import java.util.List;
import java.util.Map;
import org.jose4j.jwt.JwtClaims;
import org.junit.jupiter.api.BeforeEach;
import org.sapotrace.testing.IssuerResource;
import org.sapotrace.testing.RawHttp;
import org.sapotrace.testing.TestIssuer;

/** What the tests of tokens have in common: an issuer that the service trusts. */
@WithTestResource(IssuerResource.class)
abstract class IssuerTest extends KeysTest {

  TestIssuer issuer;

  @BeforeEach
  void joinTheIssuer() {
    issuer.join();
  }

  String token(String subject, String... scopes) {
    return issuer.signed(claims(subject, scopes));
  }

  JwtClaims claims(String subject, String... scopes) {
    JwtClaims claims =
        issuer.claims(subject, List.of(scopes).stream().map("sapotrace:"::concat).toList());
    claims.setClaim("plant", Map.of("lines", List.of("*")));
    return claims;
  }

  RawHttp.Answer lines(String token) {
    return http().get("/api/v1/lines?limit=1", bearer(token));
  }
}
