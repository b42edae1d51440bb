package org.sapotrace.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import jakarta.inject.Inject;
import java.io.IOException;
import java.net.URL;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.http.Scope;
import org.sapotrace.testing.FaultProxy;
import org.sapotrace.testing.KeysProfile;
import org.sapotrace.testing.ProxiedPostgresResource;
import org.sapotrace.testing.RawHttp;

@QuarkusTest
@TestProfile(KeysProfile.class)
@WithTestResource(ProxiedPostgresResource.class)
class DoorWithoutDatabaseTest {

  @TestHTTPResource("/")
  URL service;

  @Inject KeyRing keyRing;

  FaultProxy database;

  @AfterEach
  void joinAgain() {
    database.join();
  }

  /** Whether a key is good cannot be told then, so that it is neither a 200 nor a 401. */
  @Test
  void letsNobodyInWhileKeysCannotBeLookedUp() throws IOException {
    String key = keyRing.make(new NewKey("a test", List.of(Scope.READ), null, null)).text();
    assertThat(balances(key).status()).isEqualTo(200);

    database.part();
    RawHttp.Answer answer = balances(key);

    assertThat(answer.status()).isEqualTo(503);
    assertThat(answer.header("Retry-After")).isEqualTo("5");
    assertThat(answer.body()).contains("/problems/unavailable").doesNotContain(key);
    assertThat(new RawHttp(service.getPort()).get("/q/health/live").status()).isEqualTo(200);
    database.join();
    await().untilAsserted(() -> assertThat(balances(key).status()).isEqualTo(200));
  }

  private RawHttp.Answer balances(String key) {
    return new RawHttp(service.getPort()).get("/api/v1/balances", KeysTest.bearer(key));
  }
}
