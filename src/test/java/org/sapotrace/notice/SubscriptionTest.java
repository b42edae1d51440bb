package org.sapotrace.notice;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.webhook.Secret;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class SubscriptionTest {

  private static final String URL = "\"url\": \"https://alerts.plant.example/sapotrace\"";

  private final String path = "/subscriptions/s-" + UUID.randomUUID();

  @Test
  void getsASecretThatIsShownOnce() {
    JsonNode created = json(201, put(path, "{" + URL + "}"));
    assertThat(Secret.parse(created.get("secret").asText())).isNotNull();
    assertThat(json(200, get(path)).get("secret").isNull()).isTrue();
    assertThat(json(200, put(path, "{" + URL + "}")).get("secret").isNull()).isTrue();
    assertThat(get("/subscriptions?limit=1000").asString())
        .contains(path.substring(15))
        .doesNotContain("whsec_");
  }

  @Test
  void neverShowsASecretThatItWasGiven() {
    String secret = Secret.random().text();
    assertThat(put(path, "{%s, \"secret\": \"%s\"}".formatted(URL, secret)).asString())
        .doesNotContain(secret);
  }

  @Test
  void wantsEverythingUnlessToldOtherwise() {
    JsonNode created = json(201, put(path, "{" + URL + "}"));
    assertThat(created.get("lines").isNull()).isTrue();
    assertThat(created.get("types").isNull()).isTrue();
    assertThat(created.get("active").asBoolean()).isTrue();
  }

  @Test
  void isChangedByWhoeverKnowsItsVersion() {
    Response created = put(path, "{" + URL + "}");
    assertThat(created.header("ETag")).isEqualTo("\"1\"");
    assertThat(put(path, "{" + URL + "}").header("ETag")).isEqualTo("\"1\"");
    String off = "{" + URL + ", \"active\": false}";
    assertThat(put(path, off).header("ETag")).isEqualTo("\"2\"");
    json(
        412,
        given()
            .contentType("application/json")
            .header("If-Match", "\"1\"")
            .body("{" + URL + "}")
            .put("/api/v1" + path));
    assertThat(json(200, get(path)).get("active").asBoolean()).isFalse();
  }

  @Test
  void tellsUntilWhenTheFormerSecretSigns() {
    json(201, put(path, "{" + URL + "}"));
    String secret = Secret.random().text();
    String body = "{%s, \"secret\": \"%s\"}".formatted(URL, secret);
    assertThat(json(200, put(path, body)).get("formerSecretUntil").isNull()).isFalse();
    assertThat(put(path, body).header("ETag")).isEqualTo("\"2\"");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          "url": "http://plant.example/"                | #/url     | SAPOTRACE_NOTICE_ALLOWED_HOSTS
          "url": "https://169.254.169.254/latest"       | #/url     | not on the public internet
          "url": "https://localhost/"                   | #/url     | not on the public internet
          "url": "https://[::ffff:10.0.0.1]/"           | #/url     | not on the public internet
          "url": "https://no-such-host.invalid/"        | #/url     | There is no host
          "url": "https://a:b@alerts.plant.example/"    | #/url     | without user
          "url": "nonsense"                             | #/url     | such as https://
          "url": "https://alerts.plant.example/", "secret": "open sesame"   | #/secret  | 24 to 64 bytes
          "url": "https://alerts.plant.example/", "secret": "whsec_c2hvcnQ=" | #/secret  | 24 to 64 bytes
          "url": "https://alerts.plant.example/", "lines": ["none-such"]     | #/lines/0 | There is no line
          "url": "https://alerts.plant.example/", "lines": []                | #/lines   | size
          "url": "https://alerts.plant.example/", "types": []                | #/types   | size
          "active": true                                | #/url     | null
          """)
  void refusesWhatCannotWork(String members, String pointer, String detail) {
    JsonNode problem = json(422, put(path, "{" + members + "}"));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
    assertThat(problem.at("/errors/0/detail").asText()).contains(detail);
    json(404, get(path));
  }

  @Test
  void refusesTypesThatThereAreNot() {
    assertThat(
            json(422, put(path, "{%s, \"types\": [\"org.sapotrace.signal\"]}".formatted(URL)))
                .get("detail")
                .asText())
        .contains("org.sapotrace.signal.raised");
  }

  @Test
  void saysThatThereIsNoSuchSubscriptionOrDelivery() {
    json(404, get(path + "/deliveries"));
    json(404, post(path + "/deliveries/%s/resend".formatted(UUID.randomUUID()), ""));
    json(201, put(path, "{" + URL + "}"));
    json(404, post(path + "/deliveries/%s/resend".formatted(UUID.randomUUID()), ""));
  }
}
