package org.sapotrace.pages;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.List;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/** What somebody reads who looks how a line stands. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class LinePageTest {

  private static final String GIVEN = "{\"given\": {\"centre\": 30, \"sigma\": 3}}";

  private final BenchVisit visit = new BenchVisit();

  private Document open(String line) {
    Document page = visit.open("/lines/" + line);
    assertThat(visit.answer().statusCode()).isEqualTo(200);
    return page;
  }

  private static List<String> actions(Document page) {
    return page.select(".task h3 .advice").eachText();
  }

  @Test
  void isReachedFromTheLinesName() {
    Api.TestStream stream = Api.TestStream.soap();

    Document bench = visit.open("/");

    assertThat(bench.select("h2 a[href=/lines/" + stream.line + "]").text()).isEqualTo("Line");
  }

  @Test
  void saysOfALineWithoutResultsThatThereAreNone() {
    Api.TestStream stream = Api.TestStream.soap();

    Document page = open(stream.line);

    assertThat(page.select("h1").eachText()).containsExactly("Line");
    assertThat(page.select(".now").text()).contains("Enter the first result");
    assertThat(page.select("#watched").text())
        .contains("soap as sodium oleate, mg/kg")
        .contains("No result yet.")
        .contains("No control limits yet");
    assertThat(page.select("#watched a").eachAttr("href")).containsExactly(stream.path);
    assertThat(page.select("figure")).isEmpty();
  }

  @Test
  void saysOfALineWithoutStreamsWhatItNeeds() {
    json(201, Api.put("/lines/bare-line", "{\"name\": \"Bare\", \"alkali\": \"sodium\"}"));

    assertThat(open("bare-line").select(".now").text()).contains("Define a stream");
  }

  @Test
  void showsOfEachStreamTheLatestResultWithItsVerdictItsChartAndWaysOn() {
    Api.TestStream stream = Api.TestStream.soap();
    stream.record(40);
    String id =
        json(
                201,
                Api.post(
                    stream.path + "/results",
                    """
                    {"batch": "K-7", "sampledAt": "2026-01-06T06:00:00Z", "values": [41.25],
                     "expandedUncertainty": 3.2}
                    """))
            .get("id")
            .asText();

    Document page = open(stream.line);
    Element section = page.selectFirst("#watched");

    assertThat(page.select(".now").text())
        .contains("Nothing at its streams: their latest results meet");
    // Against 66.21 mg/kg, the soap of 5 mg/kg of sodium.
    assertThat(section.select(".verdict.conforming").text())
        .startsWith("Release 41.2 ± 3.2 mg/kg Conforming, limit 66.21 mg/kg Batch K-7 sampled")
        .contains("6 January 2026");
    assertThat(section.select(".where a").attr("href")).isEqualTo("/results/" + id);
    assertThat(section.select("img").attr("alt"))
        .isEqualTo("Washed fuel, Line: 2 results, no control limits yet");
    assertThat(section.text())
        .contains("Would tell more:")
        .contains("No control limits yet: the service lays down trial limits once");
    List<String> ways = section.select(".links a").eachAttr("href");
    assertThat(ways).hasSize(3).startsWith(stream.path);
    assertThat(section.select("img").eachAttr("src")).hasSize(1);
    for (String way : List.of(section.select("img").attr("src"), ways.get(1), ways.get(2))) {
      assertThat(given().get(way).statusCode()).as(way).isEqualTo(200);
    }
    assertThat(page.select(".lead a").eachAttr("href"))
        .containsExactly("/api/v1/lines/" + stream.line + "/review.pdf");
  }

  @Test
  void asksForTheCauseOfWhatTheChartSignalsAndNamesWhatMoved() {
    Api.TestStream stream = Api.TestStream.soap();
    for (int i = 0; i < 8; i++) {
      stream.record(29 + i % 3);
    }
    stream.adopt(GIVEN);
    JsonNode beyond = stream.record(45);
    String signal = beyond.at("/control/signals/0/id").asText();
    String reason =
        json(200, Api.get("/signals/" + signal + "/attribution")).get("reason").asText();

    Document page = open(stream.line);
    Element task = page.selectFirst(".task.signalling");

    assertThat(actions(page)).containsExactly("Find the cause");
    assertThat(task.select("h3 a[href=#watched]").text()).isEqualTo("Washed fuel");
    // Centre 30 and sigma 3: the upper limit is 39.
    assertThat(task.text())
        .contains("One result beyond a control limit, above the centre (45 mg/kg, centre 30,")
        .contains("upper control limit 39")
        .contains("Sampled 5 January 2026; the change began")
        .contains(reason);
    assertThat(task.select("a[href=/results/" + beyond.get("id").asText() + "]").eachText())
        .containsOnly("Batch B");
    assertThat(task.select("a[href=/api/v1/signals/" + signal + "]")).hasSize(1);

    // The moving average went beyond its limit at the same result.
    assertThat(beyond.at("/control/signals")).hasSize(2);
    for (JsonNode each : beyond.at("/control/signals")) {
      json(
          200,
          Api.put(
              "/signals/%s/finding".formatted(each.get("id").asText()),
              "{\"cause\": \"the settler was not drained\", \"action\": \"drained it\", \"by\": \"mh\"}"));
    }
    Document known = open(stream.line);

    assertThat(actions(known)).containsExactly("Watch whether it ends");
    assertThat(known.select(".task").text())
        .contains("The settler was not drained. Drained it. Found by mh");
  }

  @Test
  void keepsSignalsThatAreOverUntilSomebodyWritesDownTheirCause() {
    Api.TestStream stream = Api.TestStream.other("[\"beyond-limits\"]");
    stream.adopt(GIVEN);
    stream.record(45);
    stream.record(30);
    stream.record(46);
    stream.record(31);

    Document page = open(stream.line);

    assertThat(actions(page)).containsExactly("Write down what was found");
    assertThat(page.select(".task > .signal").text()).contains("(46, centre 30");
    assertThat(page.select(".task details summary").text())
        .isEqualTo("1 earlier signal without a finding");
    assertThat(page.select(".task details .signal").text()).contains("(45, centre 30");
  }

  @Test
  void putsABatchThatDoesNotConformFirst() {
    Wash wash = Wash.unwatched();
    json(201, Api.post(wash.path + "crude/limits", GIVEN));
    wash.record("crude", "K-1", 0, 500);
    String id = wash.record("washed", "K-1", 1, 90).get("id").asText();

    Document page = open(wash.line);

    assertThat(actions(page)).containsExactly("Wash again", "Find the cause");
    Element first = page.selectFirst(".task.nonconforming");
    assertThat(first.text())
        .contains("Washed fuel")
        .contains("above the upper limit of 66.21 mg/kg: wash the batch again");
    assertThat(first.select(".links a").attr("href")).isEqualTo("/results/" + id);
  }

  @Test
  void asksSomebodyToStandBehindTrialLimits() {
    Api.TestStream stream = Api.TestStream.soap();
    for (int i = 0; i < 20; i++) {
      stream.record(29 + i % 3);
    }

    Document page = open(stream.line);

    assertThat(actions(page)).contains("Adopt control limits");
    assertThat(page.select("#watched").text()).contains("Judged by trial limits of the service.");
  }

  @Test
  void goesAsABatchGoesAndShowsRemovalsBehindTheirOutlet() {
    Wash wash = Wash.watched();
    wash.record("crude", "K-1", 0, 500);
    wash.record("washed", "K-1", 1, 50);

    Document page = open(wash.line);

    assertThat(page.select("section.stream").eachAttr("id"))
        .containsExactly("crude", "washed", "washed-removal");
    Element removal = page.selectFirst("#washed-removal");
    assertThat(removal.text())
        // ln 10 = 2.302585
        .contains("2.303")
        .contains("It follows by itself from the results of Crude fuel and Washed fuel.");
    assertThat(removal.select("a[href=" + wash.path + "washed-removal]")).isEmpty();

    json(200, wash.watch("washed", null));

    assertThat(open(wash.line).select("#washed-removal").text())
        .contains("It is kept up no longer");
  }

  @Test
  void forgetsWithdrawnResults() {
    Api.TestStream stream = Api.TestStream.soap();
    stream.record(31);
    JsonNode mistaken = stream.record(90);
    json(
        201,
        Api.post(
            "/results/" + mistaken.get("id").asText() + "/corrections",
            "{\"reason\": \"wrong flask\", \"withdrawn\": true}"));

    Document page = open(stream.line);

    assertThat(page.select("#watched .figure").text()).isEqualTo("31 mg/kg");
    assertThat(actions(page)).isEmpty();
  }

  @Test
  void isNotThereForALineThatIsNot() {
    Document page = visit.open("/lines/no-such-line");

    assertThat(visit.answer().statusCode()).isEqualTo(404);
    assertThat(page.text()).contains("There is no line no-such-line.").contains("All streams");
  }
}
