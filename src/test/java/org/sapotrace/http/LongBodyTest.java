package org.sapotrace.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.http.ProblemAssertions.assertProblem;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.QuarkusTestProfile;
import io.quarkus.test.junit.TestProfile;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RawHttp;

@QuarkusTest
@TestProfile(LongBodyTest.RoomForImports.class)
@WithTestResource(PostgresResource.class)
class LongBodyTest extends ProbeTest {

  /** The server takes longer bodies than JSON may have, as imports need. */
  public static final class RoomForImports implements QuarkusTestProfile {
    @Override
    public Map<String, String> getConfigOverrides() {
      return Map.of("quarkus.http.limits.max-body-size", "8M");
    }
  }

  @Test
  void answers413ToJsonBeyondItsOwnLimit() {
    assertProblem(post(" ".repeat(2 << 20) + VALID), 413);
    assertProblem(post("{\"name\": \"" + "a".repeat(2 << 20) + "\"}"), 413);
    assertThat(post(" ".repeat(1 << 19) + VALID).status()).isEqualTo(200);
  }

  @Test
  void takesLongerRowsOfJson() {
    String rows = "{}\n".repeat(700_000);
    RawHttp.Answer answer =
        http().request("POST", "/probe/rows", rows, "Content-Type: application/x-ndjson");

    assertThat(answer.status()).isEqualTo(200);
    assertThat(answer.body()).isEqualTo("2100000");
  }

  @Test
  void answers413ToAChunkedBodyThatTurnsOutTooLong() {
    String head =
        """
        POST /probe/bodies HTTP/1.1\r
        Host: localhost\r
        Connection: close\r
        Content-Type: application/json\r
        Transfer-Encoding: chunked\r
        \r
        """;
    String chunk = "10000\r\n" + " ".repeat(1 << 16) + "\r\n";
    String message = head + chunk.repeat(32) + "0\r\n\r\n";

    assertProblem(http().send(message.getBytes(StandardCharsets.US_ASCII)), 413);
  }
}
