package org.sapotrace.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.net.URL;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.FaultProxy;
import org.sapotrace.testing.ProxiedPostgresResource;
import org.sapotrace.testing.RawHttp;

@QuarkusTest
@WithTestResource(ProxiedPostgresResource.class)
class DatabaseDownTest {

  @TestHTTPResource("/")
  URL service;

  FaultProxy database;

  @AfterEach
  void joinAgain() {
    database.join();
    http().request("DELETE", "/probe/database/held", null);
  }

  @Test
  void answers503WhileTheDatabaseIsAwayAndRecovers() throws IOException {
    assertThat(one().status()).isEqualTo(200);

    database.part();
    for (int i = 0; i < 3; i++) {
      assertUnavailable(one());
    }
    assertThat(http().get("/q/health/ready").status()).isEqualTo(503);
    assertThat(http().get("/q/health/live").status()).isEqualTo(200);

    database.join();
    await().untilAsserted(() -> assertThat(one().status()).isEqualTo(200));
  }

  @Test
  void answers503WhileEveryConnectionIsTakenAndRecovers() {
    // As many as the pool may have, see ProxiedPostgresResource.
    assertThat(http().request("POST", "/probe/database/held", "").status()).isEqualTo(204);
    assertThat(http().request("POST", "/probe/database/held", "").status()).isEqualTo(204);

    assertUnavailable(one());

    http().request("DELETE", "/probe/database/held", null);
    assertThat(one().status()).isEqualTo(200);
  }

  @Test
  void answers409WhenACommitBreaksAUniqueKey() {
    RawHttp.Answer answer = http().request("POST", "/probe/database/duplicates", "");

    ProblemAssertions.assertProblem(answer, 409);
    assertThat(answer.body()).contains("/problems/conflict");
  }

  private void assertUnavailable(RawHttp.Answer answer) {
    ProblemAssertions.assertProblem(answer, 503);
    assertThat(answer.header("Retry-After")).isEqualTo("5");
  }

  private RawHttp.Answer one() {
    return http().get("/probe/database");
  }

  private RawHttp http() {
    return new RawHttp(service.getPort());
  }
}
