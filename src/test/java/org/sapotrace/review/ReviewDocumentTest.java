package org.sapotrace.review;

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
import java.io.IOException;
import java.time.Instant;
import java.util.HashSet;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.measure.Rounding;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/** Holds what the document says against what the interface answers of the same line. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ReviewDocumentTest {

  private static final Pattern HASH = Pattern.compile("SHA-256\\): ([0-9a-f]{64}) ");

  private static String number(JsonNode value) {
    return Rounding.of(value.asDouble());
  }

  @Test
  void tellsTheLimitsThatTheInterfaceAnswersWithWhoAndWhy() throws IOException {
    ReviewedLine line = new ReviewedLine().washed();
    JsonNode limits = json(200, get(line.washed + "/limits/2"));

    assertThat(line.text(""))
        .contains(
            "2, adopted the first result %s %s %s %s 30 results, 9 Feb 2026 to 23 Feb 2026 bench, "
                .formatted(
                    number(limits.get("centre")),
                    number(limits.get("sigma")),
                    number(limits.get("lower")),
                    number(limits.get("upper"))))
        .contains(": first fortnight of the new wash");
  }

  @Test
  void tellsWhoseLimitsHoldInANewPhase() throws IOException {
    ReviewedLine line = new ReviewedLine().washed();
    json(
        201,
        post(
            line.path + "/events",
            "{\"kind\": \"media-change\", \"at\": \"2026-02-24T00:00:00Z\", \"newPhase\": true}"));

    assertThat(line.text(""))
        .contains("3, adopted 24 Feb 2026 00:00 ")
        .containsPattern(
            "a new phase began; as revision 2 \\(bench, .*: first fortnight of the new wash\\)")
        .contains("media change, new phase no note washed");
  }

  @Test
  void tellsWhatRemovalsAreDerivedFrom() throws IOException {
    Wash wash = Wash.watched();
    wash.record("crude", "K-1", 0, 1000);
    wash.record("washed", "K-1", 1, 40);
    String text = ReviewedLine.text(get("/lines/" + wash.line + "/review.pdf"));

    assertThat(text)
        .contains("Stream washed-removal: removal at sampling point after-wash, without a unit.")
        .contains("1 result counts, sampled from 1 Feb 2026 to 1 Feb 2026; mean 3.219,")
        .contains("ln(inlet/outlet) of a batch, derived from streams crude and washed.");
  }

  @Test
  void tellsEverySignalWithItsFinding() throws IOException {
    ReviewedLine line = new ReviewedLine().withAllThatHappens();
    String text = line.text("");
    JsonNode signals = line.signals().get("items");

    assertThat(signals).hasSizeGreaterThan(4);
    for (JsonNode signal : signals) {
      assertThat(text).contains(ReviewedLine.words(signal.get("text").asText()));
    }
    assertThat(text)
        .contains("Cause: The wash water ran cold. Action: The heater was replaced. By Ada Winter,")
        .contains("lapsed: limits revision 2 took over");
  }

  @Test
  void summarisesOnItsFirstPage() throws IOException {
    ReviewedLine line = new ReviewedLine().withAllThatHappens();
    int unexplained =
        json(200, get("/signals?limit=1000&state=unexplained&line=" + line.slug))
            .get("items")
            .size();

    try (PDDocument document = line.document("")) {
      assertThat(page(document, 1))
          .contains("Review of Harbour line")
          .contains("43 results of 40 batches were recorded at 2 streams; 2 of them have been")
          .contains("changed since, and 1 withdrawn.")
          .contains(
              "40 results were held against a specification: 39 conforming, 1 nonconforming, 0")
          .contains("Not conforming: K-0147.")
          .contains("%d without a finding, 1 explained, 1 lapsed.".formatted(unexplained))
          .contains("Out of control at the end of the period: Fuel after the wash.")
          .contains("Crude fuel: adopt control limits; nothing judged its results");
    }
  }

  @Test
  void countsNoSampleOfAFlushAsFuelThatFailed() throws IOException {
    ReviewedLine line = new ReviewedLine();
    line.putStream("washed", "Fuel after the wash", "after-wash");
    json(
        201,
        put(
            line.path + "/streams/flush",
            "{\"name\": \"Flush\", \"samplingPoint\": \"flush-methanol\", \"measurand\": \"soap\", \"unit\": \"mg/kg\", \"specification\": {\"upper\": 50}}"));
    line.measure("washed", "K-0147", "2026-02-28T09:00:00Z", "31.5");
    line.measure("flush", "F-1", "2026-02-28T10:00:00Z", "2500");

    assertThat(line.text(""))
        .contains(
            "1 result was held against a specification: 1 conforming, 0 nonconforming, 0 inconclusive.")
        .contains(
            "Flush methanol is not counted here: its samples follow a flush until it is clean.")
        .doesNotContain("Not conforming:");
  }

  @Test
  void tellsCorrectionsWithdrawalsTitrantsAndEvents() throws IOException {
    ReviewedLine line = new ReviewedLine().withAllThatHappens();
    String text = line.text("");
    JsonNode lot = json(200, get("/titrants/%s/standardisations".formatted(line.lot)));
    JsonNode restated = json(200, get("/titrants/%s/restatements".formatted(line.lot)));
    JsonNode changed = restated.at("/items/0/changed/0");

    assertThat(text)
        .containsPattern("K-0110, 10 Feb 2026 05:00 1810 1180.5 .* bench digits swapped")
        .containsPattern("K-0111, 10 Feb 2026 16:00 12 withdrawn .* bench wrong bottle")
        .containsPattern(
            "K-0146, 28 Feb 2026 07:10 %s %s "
                .formatted(number(changed.at("/before/value")), number(changed.at("/after/value"))))
        .contains("Titrated with lot %s (1 result), a normality".formatted(line.lot))
        .contains("1 result changed, 0 of them with another verdict. Reason: It had risen.")
        .contains("20 Feb 2026 08:00 maintenance heater looked at crude, washed");
    assertThat(lot.get("items")).hasSize(2);
    for (JsonNode each : lot.get("items")) {
      // The uncertainty decides how many digits are shown; four always are.
      assertThat(text).contains(" " + each.get("normality").asText().substring(0, 7));
    }
  }

  @Test
  void tellsPrecisionAndCapabilityAsTheInterfaceDoes() throws IOException {
    ReviewedLine line = new ReviewedLine().washed();
    String inControl = "?from=2026-02-01T00:00:00Z&to=2026-02-24T00:00:00Z";
    String text = line.text(inControl);
    JsonNode precision = json(200, get(line.washed + "/precision" + inControl));
    JsonNode capability = json(200, get(line.washed + "/charts/capability.json" + inControl));

    assertThat(text)
        .contains(
            "standard deviation %s mg/kg at a level of %s mg/kg, from %s sets of replicates"
                .formatted(
                    number(precision.at("/repeatability/standardDeviation")),
                    number(precision.at("/repeatability/level")),
                    precision.at("/repeatability/sets").asText()))
        .contains(
            "of a sigma of %s mg/kg (limits revision 2)"
                .formatted(number(precision.at("/measurementShare/chartSigma"))))
        .contains(capability.get("summary").asText() + ".")
        .contains("No chart signals at the end of the period.");
    assertThat(line.text("")).contains("No capability: The chart signals");
  }

  @Test
  void hasTheSameFurnitureOnEveryPage() throws IOException {
    ReviewedLine line = new ReviewedLine().withAllThatHappens();
    Set<String> hashes = new HashSet<>();
    try (PDDocument document = line.document("")) {
      int pages = document.getNumberOfPages();
      assertThat(pages).isBetween(5, 8);
      for (int i = 1; i <= pages; i++) {
        String page = page(document, i);
        assertThat(page)
            .contains("Harbour line, 30 Nov 2025 to 28 Feb 2026 (UTC)")
            .contains("Page %d of %d".formatted(i, pages));
        hashes.add(hash(page));
      }
      assertThat(document.getDocumentInformation().getTitle()).startsWith("Review of Harbour line");
      // The latest sample, so that the same data are the same document.
      assertThat(document.getDocumentInformation().getCreationDate().toInstant())
          .isEqualTo(Instant.parse("2026-02-28T09:00:00Z"));
    }
    assertThat(hashes).hasSize(1);
  }

  @Test
  void isTheSameForTheSameDataAndAnotherForOthers() throws IOException {
    ReviewedLine line = new ReviewedLine().washed();
    Response first = line.review("");
    Response again =
        given()
            .header("If-None-Match", first.header("ETag"))
            .get("/api/v1" + line.path + "/review.pdf");
    String hash = hash(line.text(""));

    assertThat(first.contentType()).isEqualTo("application/pdf");
    assertThat(again.statusCode()).isEqualTo(304);
    assertThat(line.review("").asByteArray()).isEqualTo(first.asByteArray());
    assertThat(hash(line.text("?paper=letter"))).isEqualTo(hash);

    ReviewedLine.explain(line.signals().get("items").get(1), "cold water", "heated");
    assertThat(hash(line.text(""))).isNotEqualTo(hash);
    assertThat(line.review("").header("ETag")).isNotEqualTo(first.header("ETag"));
  }

  @Test
  void saysWhatThereIsNoneOf() throws IOException {
    ReviewedLine empty = new ReviewedLine("Idle line");
    assertThat(empty.text(""))
        .contains("No results were recorded of this period.", "No event of the line", "Cautions")
        .contains("Page 1 of 1");
    empty.putStream("washed", "Washed fuel", "after-wash");
    assertThat(empty.text("")).contains("Without results in the period: Washed fuel.");

    empty.measure("washed", "K-1", "2026-03-01T06:00:00Z", "30");
    assertThat(empty.text(""))
        .contains("No limits were adopted", "No signal held in the period.")
        .contains(
            "No result of the period was changed.", "No result that counts was titrated here.")
        .contains("No result of the period counts with a lot on record.");
  }

  @Test
  void keepsNamesHoweverHostileAndLong() throws IOException {
    ReviewedLine line = new ReviewedLine("Линия σ 油 \uD83D\uDEE2");
    line.putStream("washed", "Süd <b>油</b> " + "Langerausdruck".repeat(8), "after-wash");
    line.measure("washed", "K-" + "9".repeat(60), "2026-03-01T06:00:00Z", "90");

    assertThat(line.text(""))
        .contains("Линия σ", "Süd <b>", "LangerausdruckLangerausdruck")
        .contains("Page 2 of ");
  }

  @ParameterizedTest
  @CsvSource({
    "?from=2026-03-01T00:00:00Z&to=2026-03-01T00:00:00Z, 400, is not before",
    "?from=2026-03-01T00:00:00Z, 400, is not before",
    "?from=2023-01-01T00:00:00Z&to=2026-01-01T00:00:00Z, 400, two years at most",
    "?paper=a5, 400, paper must be a4 or letter",
    "?from=yesterday, 400, from"
  })
  void refusesWhatIsNoPeriod(String query, int status, String why) throws IOException {
    ReviewedLine line = new ReviewedLine().washed();
    assertThat(json(status, line.review(query)).get("detail").asText()).contains(why);
  }

  @Test
  void isUnknownWhereTheLineIs() {
    assertThat(json(404, get("/lines/no-such-line/review.pdf")).get("detail").asText())
        .isEqualTo("There is no line no-such-line.");
  }

  private static String page(PDDocument document, int number) throws IOException {
    PDFTextStripper stripper = new PDFTextStripper();
    stripper.setStartPage(number);
    stripper.setEndPage(number);
    return ReviewedLine.words(stripper.getText(document));
  }

  private static String hash(String text) {
    Matcher found = HASH.matcher(text);
    assertThat(found.find()).isTrue();
    return found.group(1);
  }
}
