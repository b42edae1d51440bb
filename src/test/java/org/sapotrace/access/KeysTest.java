package org.sapotrace.access;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import jakarta.inject.Inject;
import java.net.URL;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.sapotrace.http.Scope;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RawHttp;

/** What the tests of the service where it needs keys have in common. */
@WithTestResource(PostgresResource.class)
abstract class KeysTest {

  @TestHTTPResource("/")
  URL service;

  @Inject KeyRing keyRing;

  /** One that administers, with which {@link Api} asks. */
  String administrator;

  @BeforeEach
  void holdTheKeyOfAnAdministrator() {
    administrator = key(List.of(Scope.ADMINISTER)).text();
    Api.hold(administrator);
  }

  @AfterEach
  void holdNoKey() {
    Api.hold(null);
  }

  KeyRing.Made key(List<Scope> scopes, String... lines) {
    return keyRing.make(
        new NewKey("a test", scopes, lines.length == 0 ? null : List.of(lines), null));
  }

  /** A key that was made over HTTP. */
  static JsonNode made(String body) {
    return Api.json(201, Api.post("/keys", body));
  }

  RawHttp http() {
    return new RawHttp(service.getPort());
  }

  static String bearer(String key) {
    return "Authorization: Bearer " + key;
  }
}
