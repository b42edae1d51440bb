package org.sapotrace.pages;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.PostgresResource;

/** The way of an analyst from the first page to a result, and back with a correction. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class BenchPageTest {

  private final BenchVisit visit = new BenchVisit();

  static Map<String, String> pair(String first, String second) {
    Map<String, String> typed = new LinkedHashMap<>();
    typed.put("batch", "K-0146");
    typed.put("sampledAt", "2026-02-28T07:10");
    typed.put("offset", "+00:00");
    typed.put("analyst", "mh");
    typed.put("titrant.normality", "0.01002");
    typed.put("titrant.standardUncertainty", "0.00003");
    typed.put("blankMl", "0.06");
    typed.put("glassware", "measuring-pipette-5ml");
    typed.put("replicates.1.titrantMl", first);
    typed.put("replicates.1.sampleG", "100.2");
    typed.put("replicates.2.titrantMl", second);
    typed.put("replicates.2.sampleG", "99.4");
    return typed;
  }

  private static Api.TestStream washed() {
    return Api.TestStream.with(
        """
        {"name": "Fuel after the wash", "samplingPoint": "after-wash", "measurand": "soap",
         "unit": "mg/kg"}
        """);
  }

  @Test
  void listsTheStreamsWithAWayToTheirForms() {
    Api.TestStream stream = washed();

    Document page = visit.open("/");

    assertThat(page.select("h1").eachText()).containsExactly("What was sampled?");
    assertThat(page.select("a[href=" + stream.path + "]").text())
        .isEqualTo("Fuel after the wash soap as sodium oleate, mg/kg");
  }

  @Test
  void leadsFromReadingsToFigureVerdictAdviceAndChart() {
    Api.TestStream stream = washed();
    Document form = visit.open(stream.path);

    visit.send(form, pair("1.68", "1.66"));
    Document result = visit.follow();

    // The README's example, which is computed by the interface: 49.2 ± 1.8 mg/kg.
    assertThat(result.select("h1").eachText()).containsExactly("Release 49.2 ± 1.8 mg/kg");
    assertThat(result.select(".judged").text()).isEqualTo("Conforming, limit 66.21 mg/kg");
    assertThat(result.select(".verdict").text())
        .contains("so release the batch to the next step")
        .contains("Batch K-0146 · Fuel after the wash, Line");
    assertThat(result.select(".facts").text())
        .contains("28 February 2026")
        .contains("As sodium 3.72 ± 0.14 mg/kg")
        .contains("k = 1.96")
        .contains("mh");
    assertThat(result.select(".budget tbody tr").first().text())
        .isEqualTo("blank reading 0.62 mg/kg 44 %");
    assertThat(result.body().text())
        .contains("The titrations agree: they differ by 0.22 mg/kg, and 1.9 mg/kg is the most")
        .contains("No balance was named: one that reads to 0.01 g was taken.")
        .contains("keep open flame away");
    assertThat(result.select(".chart img").attr("alt"))
        .isEqualTo("Fuel after the wash, Line: 1 result, no control limits yet");
    for (String picture :
        result.select(".chart img, .chart source").eachAttr("src").stream().toList()) {
      assertThat(given().get(picture).statusCode()).isEqualTo(200);
    }
    assertThat(given().get(result.select(".chart source").attr("srcset")).statusCode())
        .isEqualTo(200);
  }

  @Test
  void recordsTheReadingsThatWereTyped() {
    Api.TestStream stream = washed();
    Map<String, String> typed = pair("1,68", "1.66");
    typed.put("replicates.1.freeAlkaliMl", "0");
    typed.put("replicates.2.freeAlkaliMl", "0");
    typed.put("replicates.2.sampleG", "");
    typed.put("replicates.2.sampleMl", "112.5");
    typed.put("replicates.2.sampleC", "21.5");
    typed.put("sampledAt", "2026-02-28T08:10");
    typed.put("offset", "+01:00");

    visit.send(visit.open(stream.path), typed);

    JsonNode recorded = recorded(visit.answer().header("Location"));
    assertThat(recorded.at("/sampledAt").asText()).isEqualTo("2026-02-28T07:10:00Z");
    assertThat(recorded.at("/analyst").asText()).isEqualTo("mh");
    assertThat(recorded.at("/titrant/standardUncertainty").asDouble()).isEqualTo(0.00003);
    assertThat(recorded.at("/glassware").asText()).isEqualTo("measuring-pipette-5ml");
    assertThat(recorded.at("/replicates").toString())
        .isEqualTo(
            "[{\"titrantMl\":1.68,\"freeAlkaliMl\":0.0,\"sampleG\":100.2},"
                + "{\"titrantMl\":1.66,\"freeAlkaliMl\":0.0,\"sampleMl\":112.5,\"sampleC\":21.5}]");
  }

  @Test
  void takesALotOnRecordInPlaceOfANormality() {
    json(
        201,
        Api.put(
            "/titrants/page-1",
            "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01}"));
    Api.TestStream stream = washed();
    Map<String, String> typed = pair("1.68", "1.66");
    typed.put("titrant.lot", "page-1");
    typed.put("titrant.normality", "");
    typed.put("titrant.standardUncertainty", "");
    Document form = visit.open(stream.path);
    assertThat(form.select("datalist option[value=page-1]").text()).isEqualTo("hydrochloric-acid");

    visit.send(form, typed);
    Document result = visit.follow();

    assertThat(result.body().text()).contains("Titrant lot page-1 at 0.01 mol/L");
    Document next = visit.open(result.select(".actions a").first().attr("href"));
    assertThat(BenchVisit.fields(next)).containsEntry("titrant.lot", "page-1");
  }

  @Test
  void leavesOutATitrationOfWhichNothingWasTyped() {
    Api.TestStream stream = washed();
    Map<String, String> typed = pair("", "1.66");
    typed.put("replicates.1.sampleG", "");

    visit.send(visit.open(stream.path), typed);

    assertThat(recorded(visit.answer().header("Location")).at("/replicates")).hasSize(1);
  }

  @Test
  void recordsOnceWhatIsSentTwice() {
    Api.TestStream stream = washed();
    Document form = visit.open(stream.path);

    String first = visit.send(form, pair("1.68", "1.66")).header("Location");
    String second = visit.send(form, pair("1.68", "1.66")).header("Location");
    visit.open(first.replaceFirst("^https?://[^/]+", ""));
    visit.open(first.replaceFirst("^https?://[^/]+", ""));

    assertThat(second).isEqualTo(first);
    assertThat(json(200, Api.get(stream.path + "/results")).get("items")).hasSize(1);
  }

  @Test
  void recordsAnotherResultFromAFormThatWasChanged() {
    Api.TestStream stream = washed();
    Document form = visit.open(stream.path);

    visit.send(form, pair("1.68", "1.66"));
    visit.send(form, pair("1.68", "1.67"));

    assertThat(json(200, Api.get(stream.path + "/results")).get("items")).hasSize(2);
  }

  @Test
  void makesRoomForOneMoreTitrationAndKeepsWhatWasTyped() {
    Api.TestStream stream = washed();
    Document form = visit.open(stream.path);
    assertThat(form.select("legend").eachText())
        .containsExactly("Sample", "Titrant", "Titration 1", "Titration 2");
    Map<String, String> fields = BenchVisit.fields(form);
    fields.putAll(pair("1.68", ""));
    fields.put(form.select("button[name]").attr("name"), "1");

    visit.sendFields(form, fields);
    Document wider = visit.page();

    assertThat(visit.answer().statusCode()).isEqualTo(200);
    assertThat(wider.select("legend").eachText()).hasSize(5).contains("Titration 3");
    assertThat(wider.select("[aria-invalid]")).isEmpty();
    assertThat(BenchVisit.fields(wider)).containsAllEntriesOf(pair("1.68", ""));
    assertThat(json(200, Api.get(stream.path + "/results")).get("items")).isEmpty();
  }

  @Test
  void asksForMoreTitrationsWhereTheyDisagreeAndTakesThemAsACorrection() {
    Api.TestStream stream = washed();
    visit.send(visit.open(stream.path), pair("2.30", "1.96"));
    Document result = visit.follow();
    assertThat(result.select("h1").text()).startsWith("Test again");
    assertThat(result.select(".judged").text()).startsWith("Inconclusive");
    assertThat(result.select(".actions a").first().text()).isEqualTo("Enter 2 more titrations");

    Document form = visit.open(result.select(".actions a").first().attr("href"));
    assertThat(form.select("legend").eachText()).endsWith("Titration 3", "Titration 4");
    visit.send(
        form,
        Map.of(
            "replicates.3.titrantMl", "1.97",
            "replicates.3.sampleG", "99.8",
            "replicates.4.titrantMl", "1.98",
            "replicates.4.sampleG", "100.1",
            "reason", "two more titrations"));
    Document corrected = visit.follow();

    assertThat(corrected.select(".readings tbody tr")).hasSize(4);
    assertThat(corrected.body().text()).contains("The figure is the median of 4.");
    assertThat(corrected.select(".history li").last().text()).contains("two more titrations");
    JsonNode recorded = recorded(visit.answer(), corrected);
    assertThat(recorded.at("/revision").asInt()).isEqualTo(2);
    assertThat(recorded.at("/sampledAt").asText()).isEqualTo("2026-02-28T07:10:00Z");
    assertThat(recorded.at("/analyst").asText()).isEqualTo("mh");
  }

  @Test
  void asksATowerForWhatWentThroughAndKeepsItInACorrection() {
    Api.TestStream stream =
        Api.TestStream.with(
            """
            {"name": "Polished fuel", "samplingPoint": "after-dry-wash", "measurand": "soap",
             "unit": "mg/kg"}
            """);
    Document form = visit.open(stream.path);
    assertThat(form.select("legend").eachText()).contains("Tower");
    Map<String, String> typed = pair("1.68", "1.66");
    typed.put("throughput.bedVolumes", "-216");
    typed.put("inletMgPerKg", "1150");
    visit.send(form, typed);
    assertThat(BenchVisit.fault(visit.page(), "throughput.bedVolumes"))
        .startsWith("What went through is 0 to");
    typed.put("throughput.bedVolumes", "216,5");
    visit.send(form, typed);
    Document result = visit.follow();

    Document correction = visit.open(result.select(".actions a.second").attr("href"));
    visit.send(correction, Map.of("replicates.1.titrantMl", "1.67", "reason", "misread"));
    visit.follow();
    JsonNode recorded = recorded(visit.answer(), visit.page());
    assertThat(recorded.at("/revision").asInt()).isEqualTo(2);
    assertThat(recorded.at("/throughput/bedVolumes").asDouble()).isEqualTo(216.5);
    assertThat(recorded.at("/inletMgPerKg").asDouble()).isEqualTo(1150);
  }

  @Test
  void takesOverTheTitrantForTheNextSample() {
    Api.TestStream stream = washed();
    visit.send(visit.open(stream.path), pair("1.68", "1.66"));
    Document result = visit.follow();

    Document next = visit.open(result.select(".actions a").first().attr("href"));

    assertThat(next.body().text()).contains("are those of batch K-0146: check the bottle");
    assertThat(BenchVisit.fields(next))
        .containsEntry("titrant.normality", "0.01002")
        .containsEntry("glassware", "measuring-pipette-5ml")
        .containsEntry("blankMl", "0.06")
        .containsEntry("batch", "")
        .containsEntry("replicates.1.titrantMl", "");
  }

  @Test
  void takesValuesForWhatIsNotTitratedHere() {
    Api.TestStream stream = Api.TestStream.other("[\"beyond-limits\"]");
    Document form = visit.open(stream.path);

    visit.send(
        form,
        Map.of(
            "batch", "K-0146",
            "values.1", "-3,25",
            "expandedUncertainty", "0.5",
            "source", "flow meter"));
    Document result = visit.follow();
    assertThat(result.select("h1").text()).isEqualTo("Recorded -3.25 ± 0.50");

    visit.send(
        visit.open(result.select(".actions a.second").attr("href")),
        Map.of("values.1", "3.25", "reason", "sign"));
    assertThat(visit.follow().select("h1").text()).isEqualTo("Recorded 3.25 ± 0.50");
  }

  @Test
  void takesTheValuesOfASubgroup() {
    Api.TestStream stream = Api.TestStream.charted("{\"subgroupSize\": 3}");
    Document form = visit.open(stream.path);
    assertThat(form.select("label[for=values.1]").text()).isEqualTo("Values");
    visit.send(form, Map.of("batch", "K-0146", "values.1", "3,25 x"));
    assertThat(BenchVisit.fault(visit.page(), "values.1"))
        .isEqualTo("Write a number in digits, such as 0.47.");

    visit.send(form, Map.of("batch", "K-0146", "values.1", "3,25 2.5; 4"));
    Document result = visit.follow();
    assertThat(result.select("h1").text()).isEqualTo("Recorded 3.25");
    assertThat(result.body().text()).contains("Mean of 3.25; 2.5; 4");
    assertThat(result.select(".chart source, .chart img").outerHtml()).contains("charts/mean.svg");

    Document correction = visit.open(result.select(".actions a.second").attr("href"));
    assertThat(BenchVisit.fields(correction)).containsEntry("values.1", "3.25 2.5 4");
    visit.send(correction, Map.of("values.1", "3.25 2.5 4 6.25", "reason", "one was left out"));
    assertThat(visit.follow().select("h1").text()).isEqualTo("Recorded 4");
  }

  @Test
  void saysOfAWithdrawnResultThatItDoesNotCount() {
    Api.TestStream stream = washed();
    visit.send(visit.open(stream.path), pair("1.68", "1.66"));
    String path = visit.answer().header("Location").replaceFirst("^https?://[^/]+", "");
    json(201, Api.post(path + "/corrections", "{\"reason\": \"spilt\", \"withdrawn\": true}"));

    Document result = visit.open(path);

    assertThat(result.select("h1").text()).isEqualTo("Withdrawn 49.2 ± 1.8 mg/kg");
    assertThat(result.select(".judged, .chart img")).isEmpty();
    assertThat(result.select(".actions a").eachText()).containsExactly("Record the sample anew");
    assertThat(visit.open(path + "/correction").body().text()).contains("was withdrawn");
    assertThat(visit.answer().statusCode()).isEqualTo(409);
  }

  private static JsonNode recorded(String location) {
    return json(200, Api.get(location.replaceFirst("^https?://[^/]+", "")));
  }

  private static JsonNode recorded(io.restassured.response.Response answer, Document result) {
    assertThat(answer.statusCode()).isEqualTo(200);
    String correction = result.select(".actions a[href$=/correction]").attr("href");
    return json(200, Api.get(correction.replace("/correction", "")));
  }
}
