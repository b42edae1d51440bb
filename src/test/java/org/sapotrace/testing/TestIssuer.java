package org.sapotrace.testing;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.Closeable;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.List;
import java.util.UUID;
import org.jose4j.jwa.AlgorithmConstraints;
import org.jose4j.jwk.JsonWebKeySet;
import org.jose4j.jwk.RsaJsonWebKey;
import org.jose4j.jwk.RsaJwkGenerator;
import org.jose4j.jws.AlgorithmIdentifiers;
import org.jose4j.jws.JsonWebSignature;
import org.jose4j.jwt.JwtClaims;
import org.jose4j.keys.HmacKey;
import org.jose4j.lang.JoseException;

/**
 * The accounts of an invented plant: an identity provider on loopback that tells where its keys are
 * (OpenID Connect Discovery 1.0, section 4) and which they are (RFC 7517), and signs tokens.
 */
public final class TestIssuer implements Closeable {

  /** What this service is called in its tokens. */
  public static final String AUDIENCE = "sapotrace-bench";

  private final HttpServer server;
  private final FaultProxy way;
  private volatile RsaJsonWebKey key = newKey(UUID.randomUUID().toString());

  /** An issuer on a free port, which does not answer yet. */
  public TestIssuer() throws IOException {
    server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext(
        "/accounts/.well-known/openid-configuration",
        asked ->
            answer(
                asked,
                "{\"issuer\": \"%s\", \"jwks_uri\": \"%s/keys\"}".formatted(address(), address())));
    server.createContext("/accounts/keys", asked -> answer(asked, new JsonWebKeySet(key).toJson()));
    server.start();
    way = new FaultProxy(server.getAddress().getPort());
    part();
  }

  public String address() {
    return "http://127.0.0.1:" + way.port() + "/accounts";
  }

  /** Answers from now on. */
  public void join() {
    way.join();
  }

  /** Answers no longer. */
  public void part() throws IOException {
    way.part();
  }

  @Override
  public void close() throws IOException {
    way.close();
    server.stop(0);
  }

  private static void answer(HttpExchange asked, String json) throws IOException {
    byte[] body = json.getBytes(UTF_8);
    asked.getResponseHeaders().set("Content-Type", "application/json");
    asked.sendResponseHeaders(200, body.length);
    try (asked) {
      asked.getResponseBody().write(body);
    }
  }

  /** Signs with another key from now on, and tells of no other. */
  public void changeKey() {
    key = newKey(UUID.randomUUID().toString());
  }

  private static RsaJsonWebKey newKey(String id) {
    try {
      RsaJsonWebKey made = RsaJwkGenerator.generateJwk(2048);
      made.setKeyId(id);
      made.setUse("sig");
      return made;
    } catch (JoseException everyJavaCan) {
      throw new IllegalStateException(everyJavaCan);
    }
  }

  /** What a good token claims about an account: the claims that RFC 9068, section 2.2 requires. */
  public JwtClaims claims(String subject, List<String> roles) {
    JwtClaims claims = new JwtClaims();
    claims.setIssuer(address());
    claims.setAudience(AUDIENCE);
    claims.setSubject(subject);
    claims.setStringClaim("client_id", "bench-tablet");
    claims.setIssuedAtToNow();
    claims.setExpirationTimeMinutesInTheFuture(5);
    claims.setGeneratedJwtId();
    claims.setStringListClaim("roles", roles);
    return claims;
  }

  public String signed(JwtClaims claims) {
    return signed(claims, key);
  }

  /** Signed by somebody else, who says that it was this issuer's key. */
  public String forged(JwtClaims claims) {
    return signed(claims, newKey(key.getKeyId()));
  }

  /** Signed by a key of which nobody has heard. */
  public String signedByAnUnknownKey(JwtClaims claims) {
    return signed(claims, newKey("unheard-of"));
  }

  private static String signed(JwtClaims claims, RsaJsonWebKey signing) {
    JsonWebSignature token = unsigned(claims, signing.getKeyId());
    token.setAlgorithmHeaderValue(AlgorithmIdentifiers.RSA_USING_SHA256);
    token.setKey(signing.getPrivateKey());
    return compact(token);
  }

  /** Not signed at all (RFC 8725, section 2.1). */
  public String unsecured(JwtClaims claims) {
    JsonWebSignature token = unsigned(claims, key.getKeyId());
    token.setAlgorithmHeaderValue(AlgorithmIdentifiers.NONE);
    return compact(token);
  }

  /** With the public key, which everybody knows, as if it were a secret (RFC 8725, section 2.1). */
  public String signedByThePublicKeyAsASecret(JwtClaims claims) {
    JsonWebSignature token = unsigned(claims, key.getKeyId());
    token.setAlgorithmHeaderValue(AlgorithmIdentifiers.HMAC_SHA256);
    token.setKey(new HmacKey(key.getPublicKey().getEncoded()));
    return compact(token);
  }

  private static JsonWebSignature unsigned(JwtClaims claims, String keyId) {
    JsonWebSignature token = new JsonWebSignature();
    token.setAlgorithmConstraints(AlgorithmConstraints.NO_CONSTRAINTS);
    token.setHeader("typ", "at+jwt");
    token.setKeyIdHeaderValue(keyId);
    token.setPayload(claims.toJson());
    return token;
  }

  private static String compact(JsonWebSignature token) {
    try {
      return token.getCompactSerialization();
    } catch (JoseException unsignable) {
      throw new IllegalStateException(unsignable);
    }
  }
}
