package org.sapotrace.pages;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.json;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.Response;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.PostgresResource;

/** What the pages refuse, and how they say so. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class RefusedFormTest {

  private static final String HOSTILE = "<script>alert(1)</script>\"'&";

  private final BenchVisit visit = new BenchVisit();

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "batch | '' | Say which batch was sampled.",
        "sampledAt | '' | Say when the sample was taken.",
        "sampledAt | 2126-02-28T07:10 | check the date and its offset",
        "sampledAt | 1826-02-28T07:10 | check the year",
        "sampledAt | +999999-01-01T00:00 | check the date and its offset",
        "sampledAt | soon | Write date and time such as 2026-03-04 09:20.",
        "offset | noon | Write an offset such as +01:00, or Z for UTC.",
        "analyst | be\u0007ll | without control or invisible ones",
        "titrant.normality | '' | Name the lot above, or give the normality",
        "titrant.normality | 0 | from 0.0005 to 2 mol/L",
        "titrant.normality | 1,002 | may mean 1.002 or 1002",
        "titrant.normality | 1e999 | Write a number in digits, such as 0.47.",
        "titrant.standardUncertainty | -1 | uncertainty",
        "titrant.standardUncertainty | 1 | more than the normality itself",
        "titrant.lot | hcl-07 | name the lot, or give a normality",
        "blankMl | none | Write a number in digits, such as 0.47.",
        "blankMl | 6 | cannot be read from one filling of measuring-pipette-5ml",
        "glassware | bucket | bucket",
        "glassware | measuring-cylinder-10ml | delivers no titrant",
        "replicates.1.titrantMl | '' | How much titrant was used up to the end point?",
        "replicates.1.titrantMl | -1 | volume",
        "replicates.2.titrantMl | 5.5 | cannot be read from one filling",
        "replicates.2.freeAlkaliMl | 1.7 | first end point",
        "replicates.1.sampleG | '' | How much sample was titrated?",
        "replicates.1.sampleG | 0 | from 0.05 to 1000 g",
        "replicates.2.sampleMl | 110 | '' ",
        "replicates.1.initialMl | 0 | Give the titrant, or the burette",
      })
  void saysWhatIsWrongAtTheFieldAndKeepsWhatWasTyped(String field, String text, String fault) {
    Api.TestStream stream = Api.TestStream.soap();
    Map<String, String> typed = BenchPageTest.pair("1.68", "1.66");
    typed.put(field, text);
    if (field.equals("sampledAt")) {
      typed.put("offset", "");
    }
    if (field.equals("replicates.2.freeAlkaliMl")) {
      typed.put("replicates.1.freeAlkaliMl", "0.1");
    }

    visit.send(visit.open(stream.path), typed);
    Document page = visit.page();

    assertThat(visit.answer().statusCode()).isEqualTo(422);
    String at =
        switch (field) {
          case "replicates.2.sampleMl" -> "replicates.2.sampleG";
          case "replicates.1.initialMl" -> "replicates.1.titrantMl";
          default -> field;
        };
    assertThat(BenchVisit.fault(page, at)).containsIgnoringCase(fault.strip());
    assertThat(page.select("[aria-invalid]")).hasSize(1);
    if (field.equals("glassware")) {
      // What is not among the choices cannot be kept as chosen.
      typed.put(field, "");
    }
    assertThat(BenchVisit.fields(page)).containsAllEntriesOf(typed);
    assertThat(json(200, Api.get(stream.path + "/results")).get("items")).isEmpty();
  }

  @Test
  void saysThatALotIsNotOnRecord() {
    Api.TestStream stream = Api.TestStream.soap();
    Map<String, String> typed = BenchPageTest.pair("1.68", "1.66");
    typed.put("titrant.lot", "no-such-lot");
    typed.put("titrant.normality", "");
    typed.put("titrant.standardUncertainty", "");

    visit.send(visit.open(stream.path), typed);

    assertThat(visit.answer().statusCode()).isEqualTo(422);
    assertThat(BenchVisit.fault(visit.page(), "titrant.lot"))
        .isEqualTo("There is no titrant lot no-such-lot on record.");
  }

  @Test
  void recordsWhatWasRefusedOnceItIsRight() {
    Api.TestStream stream = Api.TestStream.soap();
    visit.send(visit.open(stream.path), BenchPageTest.pair("1.68", "half"));

    visit.send(visit.page(), Map.of("replicates.2.titrantMl", "1.66"));

    assertThat(visit.follow().select("h1").text()).startsWith("Release");
  }

  @Test
  void countsTheTitrationsAsThePageDoes() {
    Api.TestStream stream = Api.TestStream.soap();
    Map<String, String> typed = BenchPageTest.pair("", "1.66");
    typed.put("replicates.1.sampleG", "");
    typed.put("replicates.2.sampleG", "0");

    visit.send(visit.open(stream.path), typed);

    assertThat(BenchVisit.fault(visit.page(), "replicates.2.sampleG")).isNotBlank();
  }

  @Test
  void saysAboveTheFormWhatIsWrongWithAllTitrationsTogether() {
    Api.TestStream stream = Api.TestStream.soap();
    Map<String, String> typed = BenchPageTest.pair("1.68", "1.66");
    typed.put("replicates.1.freeAlkaliMl", "0");

    visit.send(visit.open(stream.path), typed);

    assertThat(visit.page().select(".faults li").eachText())
        .singleElement()
        .asString()
        .startsWith("Give the first end point of every replicate or of none");
  }

  @Test
  void wantsAReasonForACorrectionAndNoOneElsesInBetween() {
    Api.TestStream stream = Api.TestStream.soap();
    visit.send(visit.open(stream.path), BenchPageTest.pair("1.68", "1.66"));
    String path = visit.answer().header("Location").replaceFirst("^https?://[^/]+", "");

    visit.send(visit.open(path + "/correction"), Map.of("replicates.1.titrantMl", "1.67"));
    assertThat(BenchVisit.fault(visit.page(), "reason")).startsWith("Say why");

    Document form = visit.page();
    json(
        201,
        Api.post(
            path + "/corrections",
            """
            {"reason": "reread", "titration": {"batch": "K-0146",
             "sampledAt": "2026-02-28T07:10:00Z", "titrant": {"normality": 0.01},
             "replicates": [{"titrantMl": 1.6, "sampleG": 100}]}}
            """));
    visit.send(form, Map.of("reason", "reread"));
    assertThat(visit.answer().statusCode()).isEqualTo(422);
    assertThat(visit.page().select(".faults").text()).contains("corrected by someone else");
    assertThat(json(200, Api.get(path)).get("revision").asInt()).isEqualTo(2);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA", "<b>", "none"})
  void refusesAFormWithoutTheTokenOfItsBrowserAndKeepsNothing(String token) {
    Api.TestStream stream = Api.TestStream.soap();
    Document form = visit.open(stream.path);
    Map<String, String> fields = BenchVisit.fields(form);
    fields.putAll(BenchPageTest.pair("1.68", "1.66"));
    fields.put("form-token", token);
    if (token.equals("none")) {
      fields.remove("form-token");
    }

    visit.sendFields(form, fields);

    refusedForItsToken(stream);
  }

  @Test
  void refusesAFormOfABrowserThatLostItsCookie() {
    Api.TestStream stream = Api.TestStream.soap();
    Document form = visit.open(stream.path);
    visit.forgetCookies();

    visit.send(form, BenchPageTest.pair("1.68", "1.66"));

    refusedForItsToken(stream);
  }

  private void refusedForItsToken(Api.TestStream stream) {
    assertThat(visit.answer().statusCode()).isEqualTo(403);
    Document page = visit.page();
    assertThat(page.select("h1").text()).isEqualTo("That was not taken");
    assertThat(page.body().text()).contains("Nothing was recorded").doesNotContain("K-0146");
    assertThat(page.select(".actions a").first().attr("href")).isEqualTo(stream.path);
    assertThat(json(200, Api.get(stream.path + "/results")).get("items")).isEmpty();
  }

  @Test
  void leavesTheInterfaceAlone() {
    Api.TestStream stream = Api.TestStream.soap();
    Response plain = Api.get(stream.path);
    assertThat(plain.cookies()).isEmpty();
    assertThat(plain.header("Content-Security-Policy")).isNull();

    // A cookie that is no token, and a header that other services look for, change nothing.
    Response recorded =
        given()
            .cookie(FormToken.NAME, "x")
            .header("X-CSRF-TOKEN", "y")
            .contentType(ContentType.JSON)
            .body("{\"name\": \"Line\", \"alkali\": \"sodium\"}")
            .put("/api/v1/lines/" + stream.line);
    assertThat(recorded.statusCode()).isEqualTo(200);
    Response form =
        given()
            .accept("text/html")
            .contentType("application/x-www-form-urlencoded")
            .formParam("batch", "K-0146")
            .post("/api/v1" + stream.path + "/titrations");
    assertThat(form.statusCode()).isEqualTo(415);
    assertThat(form.contentType()).isEqualTo("application/problem+json");
  }

  @ParameterizedTest
  @CsvSource({
    "/nowhere, 404",
    "/lines/never-there/streams/watched, 404",
    "/results/01890000-0000-7000-8000-000000000000, 404",
    "/results/17, 400",
    "/?x=1, 400",
    "/lines/%00/streams/watched, 400",
    "/lines/%3Cscript%3E/streams/watched, 400",
  })
  void answersErrorsAsAPageToABrowserAndAsAProblemToOthers(String path, int status) {
    Document page = visit.open(path);
    assertThat(visit.answer().statusCode()).isEqualTo(status);
    assertThat(page.select("h1")).hasSize(1);
    assertThat(page.select("a[href=/]")).isNotEmpty();
    assertThat(visit.answer().header("Content-Security-Policy")).startsWith("default-src 'none'");

    Response problem = given().urlEncodingEnabled(false).get(path);
    assertThat(problem.statusCode()).isEqualTo(status);
    assertThat(problem.contentType()).isEqualTo("application/problem+json");
  }

  @Test
  void neverAnswersAPageUnderTheInterface() {
    for (String path : new String[] {"/api/v1/nowhere", "/api", "/q/nowhere", "/api/v1/lines/x"}) {
      Response answer = given().accept("text/html").get(path);
      assertThat(answer.contentType()).as(path).isEqualTo("application/problem+json");
    }
  }

  @Test
  void escapesWhateverComesFromAClient() {
    Api.TestStream stream =
        Api.TestStream.with(
            """
            {"name": "%s", "samplingPoint": "after-wash", "measurand": "soap", "unit": "mg/kg"}
            """
                .formatted(HOSTILE.replace("\"", "\\\"")));
    json(
        200,
        Api.put(
            "/lines/" + stream.line,
            "{\"name\": \"%s\", \"alkali\": \"sodium\"}".formatted(HOSTILE.replace("\"", "\\\""))));
    Map<String, String> typed = new LinkedHashMap<>(BenchPageTest.pair("1.68", "wrong" + HOSTILE));
    typed.put("batch", HOSTILE);

    escapes(visit.open("/"));
    Document form = visit.open(stream.path);
    escapes(form);
    visit.send(form, typed);
    escapes(visit.page());
    assertThat(BenchVisit.fields(visit.page())).containsEntry("batch", HOSTILE);
    visit.send(visit.page(), Map.of("replicates.2.titrantMl", "1.66"));
    Document result = visit.follow();
    escapes(result);
    assertThat(result.select(".where").text()).contains("Batch " + HOSTILE);
  }

  private static void escapes(Document page) {
    assertThat(page.select("script, [onclick], [style], style")).isEmpty();
    assertThat(page.select("main").text()).contains("<script>");
  }

  @Test
  void needsNoScriptAndAsksNothingOfOtherPlaces() {
    Api.TestStream stream = Api.TestStream.soap();
    Document form = visit.open(stream.path);

    assertThat(visit.answer().header("Content-Security-Policy"))
        .isEqualTo(
            "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self';"
                + " frame-ancestors 'none'; base-uri 'none'");
    assertThat(visit.answer().header("X-Content-Type-Options")).isEqualTo("nosniff");
    assertThat(visit.answer().header("Referrer-Policy")).isEqualTo("same-origin");
    assertThat(visit.answer().header("Cache-Control")).isEqualTo("no-store");
    assertThat(visit.answer().header("Set-Cookie"))
        .contains("HttpOnly")
        .containsIgnoringCase("SameSite=Lax");
    assertThat(form.select("script, iframe, object")).isEmpty();
    assertThat(form.select("[href], [src], [action]").eachAttr("abs:href"))
        .allSatisfy(address -> assertThat(address).isEmpty());
    for (String file : form.select("link").eachAttr("href")) {
      assertThat(given().get(file).statusCode()).as(file).isEqualTo(200);
    }
  }

  @Test
  void labelsEveryFieldForThoseWhoDoNotSeeIt() {
    Api.TestStream stream = Api.TestStream.soap();
    Document form = visit.open(stream.path);

    assertThat(form.select("html").attr("lang")).isEqualTo("en-GB");
    assertThat(form.select("h1")).hasSize(1);
    form.select("form input:not([type=hidden]), form select")
        .forEach(
            field -> {
              assertThat(form.select("label[for=" + field.id() + "]")).as(field.id()).hasSize(1);
              for (String id : field.attr("aria-describedby").split(" ", -1)) {
                assertThat(id.isEmpty() || form.getElementById(id) != null).as(id).isTrue();
              }
            });
    assertThat(form.select("fieldset > legend")).hasSize(4);
    assertThat(form.select("[id]").eachAttr("id")).doesNotHaveDuplicates();
  }
}
