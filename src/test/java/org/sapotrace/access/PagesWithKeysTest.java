package org.sapotrace.access;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.sapotrace.http.Scope;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.KeysProfile;

/**
 * The pages where keys are needed: a browser asks for a name and takes the key for the password.
 */
@QuarkusTest
@TestProfile(KeysProfile.class)
class PagesWithKeysTest extends KeysTest {

  @Test
  void areShownToNobodyWithoutAKey() {
    Response answer = given().accept("text/html").get("/");

    assertThat(answer.statusCode()).isEqualTo(401);
    assertThat(answer.contentType()).startsWith("text/html");
    assertThat(answer.headers().getValues("WWW-Authenticate"))
        .containsExactly(
            "Bearer realm=\"Sapotrace\"", "Basic realm=\"Sapotrace\", charset=\"UTF-8\"");
  }

  @Test
  void showTheLinesOfTheKeyOnly() {
    Api.TestStream own = Api.TestStream.soap();
    Api.TestStream other = Api.TestStream.soap();
    String key = key(List.of(Scope.READ), own.line).text();

    Document page = Jsoup.parse(as(key).get("/").asString());

    assertThat(page.select("a[href^=/lines/]").eachAttr("href"))
        .isNotEmpty()
        .allMatch(address -> (address + "/").startsWith("/lines/" + own.line + "/"));
    assertThat(as(key).get("/lines/" + own.line).statusCode()).isEqualTo(200);
    assertThat(as(key).get("/lines/" + other.line).statusCode()).isEqualTo(404);
    assertThat(as(key).get(other.path).statusCode()).isEqualTo(404);
    String foreign = other.record(31.2).path("id").asText();
    assertThat(as(key).get("/results/" + foreign).statusCode()).isEqualTo(404);
    assertThat(as(key).get("/results/" + foreign + "/correction").statusCode()).isEqualTo(404);
    assertThat(as(key).get(own.path + "?like=" + foreign).statusCode()).isEqualTo(404);
  }

  @Test
  void recordWithAKeyForIt() {
    Api.TestStream stream =
        Api.TestStream.with(
            """
            {"name": "Removal", "samplingPoint": "other", "measurand": "other", "unit": "1"}
            """);
    String both = key(List.of(Scope.READ, Scope.RECORD), stream.line).text();
    Response form = as(both).get(stream.path);
    Map<String, String> fields = new LinkedHashMap<>();
    Jsoup.parse(form.asString())
        .select("form input")
        .forEach(input -> fields.put(input.attr("name"), input.attr("value")));
    fields.put("batch", "K-0142");
    fields.put("values.1", "31.2");

    assertThat(send(as(key(List.of(Scope.READ)).text()), form, fields, stream).statusCode())
        .isEqualTo(403);
    assertThat(send(given().accept("text/html"), form, fields, stream).statusCode()).isEqualTo(401);
    assertThat(send(as(both), form, fields, stream).statusCode()).isEqualTo(303);
  }

  private static Response send(
      RequestSpecification by, Response form, Map<String, String> fields, Api.TestStream stream) {
    return by.redirects()
        .follow(false)
        .cookies(form.cookies())
        .contentType("application/x-www-form-urlencoded; charset=utf-8")
        .formParams(fields)
        .post(stream.path);
  }

  private static RequestSpecification as(String key) {
    return given().accept("text/html").auth().preemptive().basic("mh", key);
  }
}
