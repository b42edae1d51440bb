package org.sapotrace.contract;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Exchange;

/** That the watch over every exchange sees what it is there to see. */
class ExchangeTest {

  private static final String LINE =
      "{\"line\":\"quay\",\"name\":\"Quay\",\"alkali\":\"sodium\",\"density15KgPerM3\":null,"
          + "\"density15StandardUncertainty\":null,\"notes\":null}";
  private static final Map<String, String> TAGGED =
      Map.of("content-type", "application/json;charset=UTF-8", "etag", "\"1\"");
  private static final String NOT_FOUND =
      "{\"type\":\"/problems/not-found\",\"title\":\"None\",\"status\":404,\"detail\":\"None.\"}";

  @Test
  void hasNoObjectionToWhatIsDocumented() {
    assertThat(get("/api/v1/lines/quay", 200, TAGGED, LINE).objections()).isEmpty();
    assertThat(get("/q/metrics", 418, Map.of(), "whatever").objections()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          /api/v1/lines/quay         | 202 | The status 202 is not documented
          /api/v1/lines/quay/surplus | 200 | The contract does not know it
          /api/v1/lines/quay?last=1  | 200 | the parameter last is not documented
          /api/v1/lines/QUAY         | 200 | does not match the regex
          """)
  void objectsToRequestsThatTheContractDoesNotKnow(String target, int status, String objection) {
    assertThat(get(target, status, TAGGED, LINE).objections())
        .singleElement()
        .asString()
        .contains(objection);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          "notes":null               | "notes":null,"surplus":1 | surplus
          "notes":null               | "notes":1                | integer found
          ,"notes":null              | ''                       | required property 'notes'
          "sodium"                   | "calcium"                | does not have a value
          }                          | ''                       | no JSON
          """)
  void objectsToBodiesThatTheSchemaDoesNotAllow(String part, String other, String objection) {
    assertThat(get("/api/v1/lines/quay", 200, TAGGED, LINE.replace(part, other)).objections())
        .singleElement()
        .asString()
        .contains(objection);
  }

  @Test
  void objectsToHeadersThatAreMissingOrNotDocumented() {
    Map<String, String> untagged = Map.of("content-type", "application/json");
    assertThat(get("/api/v1/lines/quay", 200, untagged, LINE).objections())
        .containsExactly("The header ETag is missing");

    Map<String, String> elsewhere =
        Map.of("content-type", "application/json", "etag", "\"1\"", "location", "/");
    assertThat(get("/api/v1/lines/quay", 200, elsewhere, LINE).objections())
        .containsExactly("The header Location is not documented");
  }

  @Test
  void objectsToProblemsInAnotherForm() {
    Map<String, String> json = Map.of("content-type", "application/json");
    Map<String, String> problem = Map.of("content-type", "application/problem+json");

    assertThat(get("/api/v1/nope", 404, problem, NOT_FOUND).objections()).isEmpty();
    assertThat(get("/api/v1/nope", 404, json, NOT_FOUND).objections()).hasSize(1);
    assertThat(get("/api/v1/lines/quay", 412, problem, NOT_FOUND).objections())
        .containsExactly("The problem tells another status than 412");
  }

  @Test
  void objectsToWhatWasCarriedOutAndShouldNotHaveBeen() {
    assertThat(put("{\"name\":\"Quay\",\"alkali\":\"sodium\"}", "application/json").objections())
        .isEmpty();
    assertThat(put("{\"name\":\"Quay\"}", "application/json").objections()).hasSize(1);
    assertThat(put("{\"name\":\"Quay\",\"alkali\":\"sodium\"}", "text/plain").objections())
        .hasSize(1);
  }

  private static Exchange get(
      String target, int status, Map<String, String> headers, String answer) {
    return new Exchange("GET", target, "", new byte[0], status, headers, bytes(answer));
  }

  private static Exchange put(String body, String type) {
    return new Exchange("PUT", "/api/v1/lines/quay", type, bytes(body), 200, TAGGED, bytes(LINE));
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
