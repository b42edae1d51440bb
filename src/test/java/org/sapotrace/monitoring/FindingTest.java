package org.sapotrace.monitoring;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import javax.sql.DataSource;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class FindingTest {

  private static final String SPENT =
      "{\"cause\": \"the resin was spent\", \"action\": \"repacked\", \"by\": \"Ada Winter\"}";

  @Inject DataSource database;

  private TestStream stream;
  private final List<String> results = new ArrayList<>();
  private String signal;

  /** Nine results around 0, and one at 40 that signals. */
  @BeforeEach
  void signal() {
    stream = TestStream.other("[\"beyond-limits\"]");
    stream.adopt("{\"given\": {\"centre\": 0, \"sigma\": 1}}");
    for (int i = 0; i < 10; i++) {
      results.add(stream.record(i == 4 ? 40 : i % 2).get("id").asText());
    }
    signal = json(200, get("/signals?line=" + stream.line)).at("/items/0/id").asText();
  }

  @Test
  void explainsItsSignal() {
    assertThat(json(200, get("/signals/" + signal)).get("finding").isNull()).isTrue();
    JsonNode explained = find(SPENT);

    assertThat(explained.get("state").asText()).isEqualTo("explained");
    JsonNode finding = explained.get("finding");
    assertThat(finding.get("cause").asText()).isEqualTo("the resin was spent");
    assertThat(finding.get("action").asText()).isEqualTo("repacked");
    assertThat(finding.get("by").asText()).isEqualTo("Ada Winter");
    assertThat(finding.get("exclude")).isEmpty();
    assertThat(json(200, get("/signals/" + signal))).isEqualTo(explained);
    assertThat(json(200, get("/signals/" + signal + "/finding"))).isEqualTo(finding);
  }

  @Test
  void isWhatSignalsAreAskedForBy() {
    assertThat(listed("explained")).isEmpty();
    assertThat(listed("unexplained")).containsExactly(signal);
    find(SPENT);

    assertThat(listed("explained")).containsExactly(signal);
    assertThat(listed("unexplained")).isEmpty();
    assertThat(listed("lapsed")).isEmpty();
  }

  @Test
  void staysWhenItsSignalGrowsOrLapses() {
    find(SPENT);
    json(201, post("/results/" + results.get(5) + "/corrections", correction("[41]")));
    JsonNode grown = json(200, get("/signals/" + signal));
    assertThat(grown.get("count").asInt()).isEqualTo(2);
    assertThat(grown.get("state").asText()).isEqualTo("explained");
    json(201, post("/results/" + results.get(4) + "/corrections", correction("[0]")));

    JsonNode lapsed = json(200, get("/signals/" + signal));
    assertThat(lapsed.get("state").asText()).isEqualTo("lapsed");
    assertThat(lapsed.at("/finding/cause").asText()).isEqualTo("the resin was spent");
  }

  @Test
  void doesNotRevokeALapse() {
    json(201, post("/results/" + results.get(4) + "/corrections", correction("[0]")));

    assertThat(find(SPENT).get("state").asText()).isEqualTo("lapsed");
    assertThat(listed("lapsed")).containsExactly(signal);
    assertThat(listed("explained")).isEmpty();
  }

  @Test
  void takesThePlaceOfAnEarlierOneThatStaysOnRecord() throws SQLException {
    find(SPENT);
    find("{\"cause\": \"a slip of the pipette\", \"by\": \"Ada Winter\"}");

    JsonNode finding = json(200, get("/signals/" + signal + "/finding"));
    assertThat(finding.get("cause").asText()).isEqualTo("a slip of the pipette");
    assertThat(finding.get("action").isNull()).isTrue();
    assertThat(causesOnRecord()).containsExactly("the resin was spent", "a slip of the pipette");
  }

  @Test
  void isTheSameWhenItIsPutAgain() throws SQLException {
    JsonNode first = find(SPENT);

    assertThat(find(SPENT)).isEqualTo(first);
    assertThat(causesOnRecord()).hasSize(1);
  }

  @Test
  void isReplacedOnlyByWhoeverKnowsIt() {
    Response first = put("/signals/" + signal + "/finding", SPENT);
    String tag = first.header("ETag");
    String other = "{\"cause\": \"a slip of the pipette\", \"by\": \"Ada Winter\"}";
    assertThat(get("/signals/" + signal + "/finding").header("ETag")).isEqualTo(tag);

    assertThat(putUnless("If-None-Match", "*", other)).isEqualTo(412);
    assertThat(putUnless("If-Match", "\"7\"", other)).isEqualTo(412);
    assertThat(putUnless("If-Match", tag, other)).isEqualTo(200);
    assertThat(putUnless("If-Match", tag, SPENT)).isEqualTo(412);
    assertThat(json(200, get("/signals/" + signal)).at("/finding/cause").asText())
        .isEqualTo("a slip of the pipette");
  }

  // computed: without the 40, the moving ranges are 1 but over the gap that it leaves, so that
  // sigma = 1 / d2(2) = sqrt(pi) / 2.
  @Test
  void leavesResultsOutOfLaterBaselinesWithItsCause() {
    find(excluding(results.get(4)));
    JsonNode adopted = stream.adopt("{\"baseline\": {\"first\": 10}}");

    assertThat(adopted.get("n").asInt()).isEqualTo(9);
    assertThat(adopted.get("sigma").asDouble()).isCloseTo(Math.sqrt(Math.PI) / 2, within(1e-12));
    assertThat(adopted.get("excluded")).hasSize(1);
    assertThat(adopted.at("/excluded/0/result").asText()).isEqualTo(results.get(4));
    assertThat(adopted.at("/excluded/0/cause").asText()).isEqualTo("a slip");
    assertThat(adopted.at("/excluded/0/signal").asText()).isEqualTo(signal);
    assertThat(json(200, get(stream.path + "/limits/2"))).isEqualTo(adopted);
  }

  @Test
  void leavesNothingOutOfABaselineWithoutThem() {
    find(excluding(results.get(4)));
    stream.record(1);
    stream.record(0);
    stream.record(1);

    assertThat(stream.adopt("{\"baseline\": {\"last\": 8}}").get("excluded")).isEmpty();
  }

  @Test
  void givesWayToTheCauseOfWhoeverAdopts() {
    find(excluding(results.get(4)));
    JsonNode adopted =
        stream.adopt(
            "{\"baseline\": {\"first\": 10}, \"exclude\": [{\"result\": \"%s\", \"cause\": \"spilt\"}]}"
                .formatted(results.get(4)));

    assertThat(adopted.get("excluded")).hasSize(1);
    assertThat(adopted.at("/excluded/0/cause").asText()).isEqualTo("spilt");
    assertThat(adopted.at("/excluded/0/signal").isNull()).isTrue();
  }

  @Test
  void leavesResultsInAgainThatALaterOneDoesNotName() {
    find(excluding(results.get(4)));
    find(SPENT);

    assertThat(stream.adopt("{\"baseline\": {\"first\": 10}}").get("n").asInt()).isEqualTo(10);
  }

  /** The limits that call for the signal no more are the very ones it was left out of. */
  @Test
  void leavesResultsOutAlsoAfterItsSignalHasLapsed() {
    find(excluding(results.get(4)));
    stream.adopt(
        "{\"given\": {\"centre\": 0, \"sigma\": 100}, \"effectiveFrom\": \"2026-01-01T00:00:00Z\"}");
    assertThat(listed("lapsed")).containsExactly(signal);

    assertThat(stream.adopt("{\"baseline\": {\"first\": 10}}").get("n").asInt()).isEqualTo(9);
  }

  @Test
  void isRefusedWhereItLeavesOutWhatTheSignalIsNotAbout() {
    TestStream other = TestStream.other("[]");
    String foreign = other.record(1).get("id").asText();

    refuses(excluding(results.get(3)), "#/exclude/0", "sampled from 2026-01-05T10:00:00Z");
    refuses(excluding(results.get(5)), "#/exclude/0", "to 2026-01-05T10:00:00Z");
    refuses(excluding(foreign), "#/exclude/0", "of stream watched");
    refuses(excluding(UUID.randomUUID().toString()), "#/exclude/0", "of stream watched");
    refuses(excluding(results.get(4) + "\", \"" + results.get(4)), "#/exclude/1", "left out twice");
    assertThat(json(200, get("/signals/" + signal)).get("finding").isNull()).isTrue();
  }

  @Test
  void mayLeaveOutAllOfTheFirstWindow() {
    TestStream running = TestStream.other("[\"eight-same-side\"]");
    running.adopt("{\"given\": {\"centre\": 0, \"sigma\": 1}}");
    List<String> run = new ArrayList<>();
    for (int i = 0; i < 9; i++) {
      run.add(running.record(i < 6 ? 0.1 : 2.5).get("id").asText());
    }
    String found = json(200, get("/signals?line=" + running.line)).at("/items/0/id").asText();
    assertThat(json(200, get("/signals/" + found)).at("/startedWithin/from").asText())
        .as("the change lies behind the first result of the window")
        .isGreaterThan("2026-01-05T06:00:00Z");

    JsonNode explained =
        json(200, put("/signals/" + found + "/finding", excluding(String.join("\", \"", run))));
    assertThat(explained.at("/finding/exclude")).hasSize(9);
  }

  @Test
  void needsACauseAndSomebody() {
    refuses("{\"by\": \"Ada Winter\"}", "#/cause", "");
    refuses("{\"cause\": \"spilt\"}", "#/by", "");
    refuses("{\"cause\": \" \", \"by\": \"Ada Winter\"}", "#/cause", "");
  }

  @Test
  void isUnknownWithoutItsSignalOrBeforeItIsWritten() {
    json(404, put("/signals/01a2123c-1e7a-7659-b1c2-3a7ffe49715f/finding", SPENT));
    assertThat(json(404, get("/signals/" + signal + "/finding")).get("detail").asText())
        .contains("Nobody has written down");
  }

  private JsonNode find(String finding) {
    return json(200, put("/signals/" + signal + "/finding", finding));
  }

  private static String excluding(String result) {
    return "{\"cause\": \"a slip\", \"by\": \"Ada Winter\", \"exclude\": [\"%s\"]}"
        .formatted(result);
  }

  private static String correction(String values) {
    return "{\"reason\": \"a slip\", \"values\": %s}".formatted(values);
  }

  private int putUnless(String header, String value, String finding) {
    return given()
        .contentType("application/json")
        .header(header, value)
        .body(finding)
        .put("/api/v1/signals/" + signal + "/finding")
        .statusCode();
  }

  private void refuses(String finding, String pointer, String detail) {
    JsonNode problem = json(422, put("/signals/" + signal + "/finding", finding));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
    assertThat(problem.get("detail").asText()).contains(detail);
  }

  private List<String> listed(String state) {
    return json(200, get("/signals?line=%s&state=%s".formatted(stream.line, state)))
        .get("items")
        .findValuesAsText("id");
  }

  private List<String> causesOnRecord() throws SQLException {
    try (Connection connection = database.getConnection();
        PreparedStatement query =
            connection.prepareStatement(
                "select cause from finding where signal_id = ? order by number")) {
      query.setObject(1, UUID.fromString(signal));
      try (ResultSet rows = query.executeQuery()) {
        List<String> causes = new ArrayList<>();
        while (rows.next()) {
          causes.add(rows.getString(1));
        }
        return causes;
      }
    }
  }
}
