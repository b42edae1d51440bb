package org.sapotrace.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.http.ProblemAssertions.assertProblem;
import static org.sapotrace.http.ProblemAssertions.pointers;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RawHttp;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class HostileRequestTest extends ProbeTest {

  @ParameterizedTest
  @EnumSource
  void answersWhatIsThrownWithItsProblem(ProbeFailure failure) {
    RawHttp.Answer answer = http().get("/probe/failures/" + failure);

    assertProblem(answer, failure.status());
    assertThat(answer.header("Retry-After")).isEqualTo(failure.status() == 503 ? "5" : "");
  }

  @Test
  void listsTheFaultsOfARefusalAndTellsThatItIsNotYetDone() {
    assertThat(pointers(assertProblem(http().get("/probe/failures/IMPOSSIBLE_TWICE"), 422)))
        .containsExactly("#/a", "#/b");
    JsonNode problem = assertProblem(http().get("/probe/failures/NOT_YET"), 422);
    assertThat(problem.path("type").asText()).isEqualTo("/problems/not-yet");
  }

  @Test
  void tellsAReferenceOfADefectAndNothingElse() {
    JsonNode problem = assertProblem(http().get("/probe/failures/DEFECT"), 500);

    assertThat(problem.path("detail").asText()).matches(".*under the reference [0-9a-f-]{36}\\.");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "finish=shiny", "from=2026-01-01T00:00:00", "exact=1", "exact=yes", "count=x", "count=10",
        "count=", "line=A", "line=-a", "finish=matt&finish=matt", "Finish=matt", "surplus=1",
        "%00=1", "line=%00"
      })
  void answers400ToAQueryThatIsNotUnderstood(String query) {
    JsonNode problem = assertProblem(http().get("/probe/queries?" + query), 400);

    assertThat(problem.path("type").asText()).isEqualTo("/problems/bad-parameter");
  }

  @ParameterizedTest
  @CsvSource({
    "/probe/queries?finish=shiny, finish",
    "/probe/queries?from=2026, from",
    "/probe/queries?line=yes&exact=yes, exact",
    "/probe/queries?count=x, count",
    "/probe/things/x, id"
  })
  void namesTheParameterThatItCannotRead(String target, String name) {
    JsonNode problem = assertProblem(http().get(target), 400);

    assertThat(problem.path("detail").asText()).startsWith(name + " must be ");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "?finish=high-gloss",
        "?from=2026-01-01T00:00:00Z",
        "?exact=false&count=9",
        "?tags=1&tags=2"
      })
  void takesAQueryThatIsUnderstood(String query) {
    assertThat(http().get("/probe/queries" + query).status()).isEqualTo(200);
  }

  @ParameterizedTest
  @ValueSource(strings = {"1", "0190163d-8694-739b-aea5", "1-1-1-1-1"})
  void answers400ToAPathParameterThatIsNotUnderstood(String id) {
    assertProblem(http().get("/probe/things/" + id), 400);
  }

  @ParameterizedTest
  @ValueSource(strings = {"/nope", "/probe", "/q/nope", "/q", "/probe/%00", "/probe/../x", "*"})
  void answers404ToAnUnknownPath(String path) {
    assertProblem(http().get(path), 404);
  }

  @ParameterizedTest
  @CsvSource({
    "DELETE, /probe/bodies, 'OPTIONS, POST'",
    "TRACE, /probe/text, 'GET, HEAD, OPTIONS'",
    "BREW, /probe/things/1, 'GET, HEAD, OPTIONS'",
    "POST, /probe/document, 'GET, HEAD, OPTIONS, PUT'",
    "POST, /api/v1/lines/harbour/streams/washed/precision, 'GET, HEAD, OPTIONS'",
    "PUT, /api/v1/lines/harbour/streams/washed/forecast, 'GET, HEAD, OPTIONS'",
    "DELETE, /api/v1/lines/harbour/streams/washed/limits, 'GET, HEAD, OPTIONS, POST'"
  })
  void answers405WithTheMethodsThatAreAllowed(String method, String path, String allowed) {
    RawHttp.Answer answer = http().request(method, path, null);

    assertProblem(answer, 405);
    assertThat(answer.header("Allow")).isEqualTo(allowed);
  }

  @Test
  void namesTheMediaTypesThatAreTaken() {
    assertThat(http().request("POST", "/probe/rows", "{}", "Content-Type: text/plain").body())
        .contains("Send the body as application/x-ndjson")
        .contains("and say so in Content-Type.");
  }

  @Test
  void answers406And415ToMediaTypesItHasNot() {
    assertProblem(http().get("/probe/text", "Accept: image/png"), 406);
    assertProblem(http().get("/probe/text", "Accept: ;;;"), 406);
    assertProblem(http().request("POST", "/probe/bodies", VALID, "Content-Type: text/plain"), 415);
    assertProblem(http().request("POST", "/probe/bodies", VALID, "Content-Type: ;;;"), 415);
    assertProblem(
        http()
            .request("POST", "/probe/bodies", VALID, "Content-Type: application/merge-patch+json"),
        415);
    assertProblem(
        http()
            .request(
                "POST", "/probe/bodies", VALID, "Content-Type: application/json;charset=nonsense"),
        415);
    assertProblem(
        http()
            .request(
                "POST", "/probe/rows", "{}", "Content-Type: application/x-ndjson;charset=nonsense"),
        415);
    assertThat(
            http()
                .request(
                    "POST", "/probe/bodies", VALID, "Content-Type: application/json;charset=UTF-8")
                .status())
        .isEqualTo(200);
  }

  @Test
  void answers413ToABodyThatSaysItIsTooLong() {
    JsonNode problem = assertProblem(post(" ".repeat(1 << 21)), 413);

    assertThat(problem.path("detail").asText()).contains("1 MiB", "256 MiB to an import");
  }

  @Test
  void answers414And431ToWhatIsTooLong() {
    assertProblem(http().get("/probe/" + "a".repeat(5000)), 414);
    assertProblem(http().get("/probe/text", "X-Long: " + "a".repeat(20_000)), 431);
  }

  /** What the server cannot even read it refuses beneath anything of ours, and says nothing. */
  @ParameterizedTest
  @CsvSource({
    "'GARBAGE\r\n\r\n', 400",
    "'GET /probe/text HTTP/1.1\r\nHost: localhost\r\nno colon\r\n\r\n', 400",
    "'GET /probe/text HTTP/1.1\r\nHost: localhost\r\nContent-Length: -1\r\n\r\n', 400",
    "'GET /probe/%zz HTTP/1.1\r\nHost: localhost\r\n\r\n', 400"
  })
  void refusesWhatIsNotHttpWithoutAWord(String message, int status) {
    RawHttp.Answer answer = http().send(message.getBytes(StandardCharsets.ISO_8859_1));

    assertThat(answer.status()).isEqualTo(status);
    assertThat(answer.body()).isEmpty();
  }

  @Test
  void refusesHeadersBeyondReadingWithoutAWord() {
    RawHttp.Answer answer = http().get("/probe/text", "X-Long: " + "a".repeat(200_000));

    assertThat(answer.status()).isEqualTo(431);
    assertThat(answer.body()).isEmpty();
  }

  @Test
  void answersOverHttp2AsWell() throws Exception {
    HttpClient client = HttpClient.newBuilder().version(HttpClient.Version.HTTP_2).build();
    HttpRequest request =
        HttpRequest.newBuilder(
                URI.create(RestAssured.baseURI + ":" + RestAssured.port + "/nowhere"))
            .build();
    HttpResponse<String> answer = client.send(request, HttpResponse.BodyHandlers.ofString());

    assertThat(answer.version()).isEqualTo(HttpClient.Version.HTTP_2);
    assertThat(answer.statusCode()).isEqualTo(404);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"plant.example", "localhost.plant.example", "127.0.0.1.plant.example", "["})
  void refusesForeignNamesWhileItListensOnLoopback(String host) {
    int status = http().get("/probe/text", "Host: " + host).status();

    assertThat(status).isIn(400, 421);
  }

  @Test
  void refusesChangesFromForeignPagesOnly() {
    String json = "Content-Type: application/json";
    String own = "Origin: http://localhost:" + service.getPort();

    assertProblem(
        http().request("POST", "/probe/bodies", VALID, json, "Origin: http://plant.example"), 403);
    assertProblem(http().request("POST", "/probe/bodies", VALID, json, "Origin: null"), 403);
    assertThat(http().request("POST", "/probe/bodies", VALID, json, own).status()).isEqualTo(200);
    assertThat(http().get("/probe/text", "Origin: http://plant.example").status()).isEqualTo(200);
  }

  @Test
  void answersHeadLikeGetWithoutTheBody() {
    RawHttp.Answer head = http().request("HEAD", "/probe/text", null);

    assertThat(head.status()).isEqualTo(200);
    assertThat(head.body()).isEmpty();
    assertThat(http().request("HEAD", "/nope", null).status()).isEqualTo(404);
    assertThat(http().request("OPTIONS", "/probe/bodies", null).status()).isEqualTo(200);
  }
}
