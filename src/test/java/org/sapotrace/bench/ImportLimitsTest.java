package org.sapotrace.bench;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Imports.ndjson;
import static org.sapotrace.testing.Imports.recorded;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.net.URI;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RawHttp;

/** What an import takes of a body that is long, wrong throughout, compressed, or breaks off. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ImportLimitsTest {

  private static final String GOOD =
      "{\"batch\": \"B\", \"sampledAt\": \"2026-03-01T09:%02d:%02dZ\", \"values\": [30]}\n";

  @TestHTTPResource("/")
  URI service;

  private TestStream stream;

  @BeforeEach
  void putAStream() {
    stream = TestStream.soap();
    stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 3}}");
  }

  @Test
  void stopsWhereAThousandRowsWereRefusedAndSaysSo() {
    JsonNode answer = json(200, ndjson(stream, good(0, 500) + "{}\n".repeat(1600) + good(500, 9)));

    assertThat(answer.get("accepted").asInt()).isEqualTo(500);
    JsonNode last = answer.get("refused").get(answer.get("refused").size() - 1);
    assertThat(answer.get("refused")).hasSize(1501);
    assertThat(last.get("row").asInt()).isEqualTo(2001);
    assertThat(last.at("/problem/type").asText()).isEqualTo("/problems/stopped");
    assertThat(recorded(stream)).hasSize(500);
  }

  @Test
  void listsNoMoreThanThatWhereAllOrNoneIsWanted() {
    JsonNode answer =
        json(
            200,
            Api.request()
                .contentType("application/x-ndjson")
                .body((good(0, 5) + "{}\n".repeat(1600)).getBytes(US_ASCII))
                .post("/api/v1" + stream.path + "/imports?atomic=true"));
    assertThat(answer.get("accepted").asInt()).isZero();
    assertThat(answer.get("refused")).hasSize(1001);
    assertThat(recorded(stream)).isEmpty();
  }

  @Test
  void refusesARowOfMoreThanAMebibyteAndGoesOn() {
    String long1 = "{\"batch\": \"" + "x".repeat(1 << 20) + "\"}\n";
    JsonNode answer = json(200, ndjson(stream, good(0, 1) + long1 + good(1, 1)));
    assertThat(answer.get("accepted").asInt()).isEqualTo(2);
    assertThat(answer.at("/refused/0/row").asInt()).isEqualTo(2);
    assertThat(answer.at("/refused/0/problem/detail").asText()).contains("longer than 1 MiB");
  }

  @Test
  void refusesATextThatCannotBeStored() {
    String row = "{\"batch\": \"%s\", \"sampledAt\": \"2026-03-01T09:00:00Z\", \"values\": [30]}\n";
    JsonNode answer =
        json(200, ndjson(stream, row.formatted("a\\u0000") + row.formatted("\\ud800") + "\0\n"));
    assertThat(answer.get("accepted").asInt()).isZero();
    assertThat(answer.get("refused").findValuesAsText("row")).containsExactly("1", "2", "3");
  }

  @Test
  void refusesACompressedBody() {
    RawHttp.Answer answer =
        http()
            .request(
                "POST",
                "/api/v1" + stream.path + "/imports",
                "\u001f\u008b",
                "Content-Type: application/x-ndjson",
                "Content-Encoding: gzip");
    assertThat(answer.status()).isEqualTo(415);
    assertThat(answer.body()).contains("Content-Encoding");
  }

  @Test
  void refusesAllOrNoneOfMoreThanTenMebibytes() {
    String blank = " ".repeat(1000) + "\n";
    JsonNode problem =
        json(
            413,
            Api.request()
                .contentType("application/x-ndjson")
                .body((good(0, 5) + blank.repeat(11_000)).getBytes(US_ASCII))
                .post("/api/v1" + stream.path + "/imports?atomic=true"));
    assertThat(problem.get("detail").asText()).contains("at most 10 MiB");
    assertThat(recorded(stream)).isEmpty();
  }

  /** The client is gone in the middle of a row: whole blocks stay, and nothing of the last one. */
  @Test
  void keepsWholeBlocksOfABodyThatBreaksOff() {
    String rows = good(0, 1005);
    String message =
        "POST /api/v1%s/imports HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/x-ndjson\r\nContent-Length: %d\r\n\r\n"
            .formatted(stream.path, rows.length());
    http()
        .hangUpAfter(
            (message + rows.substring(0, rows.length() - 20)).getBytes(US_ASCII),
            () -> await().until(() -> since("09:16:39Z").size() > 0));

    assertThat(since("09:16:40Z")).isEmpty();
  }

  private JsonNode since(String time) {
    String results = stream.path + "/results?from=2026-03-01T" + time;
    return json(200, Api.get(results)).get("items");
  }

  private RawHttp http() {
    return new RawHttp(service.getPort());
  }

  /** Rows of one value a second. */
  private static String good(int from, int count) {
    StringBuilder rows = new StringBuilder();
    for (int i = from; i < from + count; i++) {
      rows.append(GOOD.formatted(i / 60, i % 60));
    }
    return rows.toString();
  }
}
