package org.sapotrace.review;

import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.restassured.response.Response;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.Imports;

/** A line with a history worth a review, which no other test knows. */
final class ReviewedLine {

  private static final AtomicInteger LINES = new AtomicInteger();
  private static final String STREAM =
      """
      {"name": "%s", "samplingPoint": "%s", "measurand": "soap", "unit": "mg/kg",
       "chart": {"rules": "western-electric-1956"}}
      """;
  private static final String TITRATION =
      """
      {"batch": "%s", "sampledAt": "%s", "analyst": "jt", "titrant": {"lot": "%s"},
       "blankMl": 0.06, "glassware": "measuring-pipette-5ml",
       "replicates": [{"titrantMl": %s, "sampleG": 100}, {"titrantMl": %s, "sampleG": 100}]}
      """;

  final String slug = "reviewed-" + LINES.incrementAndGet();
  final String path = "/lines/" + slug;
  final String washed = path + "/streams/washed";
  final String lot = "lot-of-" + slug;

  ReviewedLine(String name) {
    json(201, put(path, "{\"name\": \"%s\", \"alkali\": \"sodium\"}".formatted(name)));
  }

  ReviewedLine() {
    this("Harbour line");
  }

  void putStream(String stream, String name, String samplingPoint) {
    json(201, put(path + "/streams/" + stream, STREAM.formatted(name, samplingPoint)));
  }

  /** Three weeks of the guide's washed fuel, of which the last days are out of control. */
  ReviewedLine washed() throws IOException {
    putStream("washed", "Fuel after the wash", "after-wash");
    String path = "docs/example/washed-fuel.ndjson";
    json(
        200,
        Api.request()
            .contentType(Imports.NDJSON)
            .body(Files.readAllBytes(Path.of(path)))
            .post("/api/v1" + washed + "/imports"));
    json(
        201,
        post(
            washed + "/limits",
            "{\"baseline\": {\"first\": 30}, \"reason\": \"first fortnight of the new wash\"}"));
    return this;
  }

  /** Crude fuel, a correction, a withdrawal, a failed batch, findings, events and a lot. */
  ReviewedLine withAllThatHappens() throws IOException {
    washed();
    putStream("crude", "Crude fuel", "crude");
    measure("crude", "K-0109", "2026-02-09T15:00:00Z", "1180");
    JsonNode misread = measure("crude", "K-0110", "2026-02-10T05:00:00Z", "1810");
    change(misread, "\"reason\": \"digits swapped\", \"values\": [1180.5]");
    change(
        measure("crude", "K-0111", "2026-02-10T16:00:00Z", "12"),
        "\"reason\": \"wrong bottle\", \"withdrawn\": true");
    measure("washed", "K-0147", "2026-02-28T09:00:00Z", "71.5");
    titrant();
    explain(unexplained(), "the wash water ran cold", "the heater was replaced");
    json(
        201,
        post(
            path + "/events",
            "{\"kind\": \"maintenance\", \"at\": \"2026-02-20T08:00:00Z\", \"note\": \"heater looked at\"}"));
    return this;
  }

  private JsonNode unexplained() {
    for (JsonNode signal : signals().get("items")) {
      if (signal.get("state").asText().equals("unexplained")) {
        return signal;
      }
    }
    throw new AssertionError("no signal is unexplained");
  }

  JsonNode signals() {
    return json(200, get("/signals?limit=1000&line=" + slug));
  }

  static void explain(JsonNode signal, String cause, String action) {
    json(
        200,
        put(
            "/signals/%s/finding".formatted(signal.get("id").asText()),
            "{\"cause\": \"%s\", \"action\": \"%s\", \"by\": \"Ada Winter\"}"
                .formatted(cause, action)));
  }

  JsonNode measure(String stream, String batch, String at, String value) {
    return json(
        201,
        post(
            "%s/streams/%s/results".formatted(path, stream),
            """
            {"batch": "%s", "sampledAt": "%s", "values": [%s], "expandedUncertainty": 3,
             "coverageFactor": 2}
            """
                .formatted(batch, at, value)));
  }

  static void change(JsonNode result, String how) {
    json(
        201, post("/results/%s/corrections".formatted(result.get("id").asText()), "{" + how + "}"));
  }

  private void titrant() {
    String titrant = "/titrants/" + lot;
    json(
        201,
        put(
            titrant,
            "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01, \"preparedOn\": \"2026-02-01\"}"));
    standardise(titrant, "2026-02-01T08:00:00Z", 25.0);
    json(
        201,
        post(
            washed + "/titrations",
            TITRATION.formatted("K-0146", "2026-02-28T07:10:00Z", lot, 1.68, 1.66)));
    standardise(titrant, "2026-03-10T08:00:00Z", 24.4);
    json(201, post(titrant + "/restatements", "{\"reason\": \"it had risen\"}"));
  }

  private static void standardise(String titrant, String at, double titrantMl) {
    json(
        201,
        post(
            titrant + "/standardisations",
            """
            {"standard": "tris", "performedAt": "%s",
             "replicates": [{"standardG": 0.0302, "titrantMl": %s}]}
            """
                .formatted(at, titrantMl)));
  }

  Response review(String query) {
    return get(path + "/review.pdf" + query);
  }

  PDDocument document(String query) throws IOException {
    return document(review(query));
  }

  private static PDDocument document(Response answer) throws IOException {
    if (answer.statusCode() != 200) {
      throw new AssertionError(answer.asString());
    }
    return Loader.loadPDF(answer.asByteArray());
  }

  /** All words of the review, with single spaces between them. */
  String text(String query) throws IOException {
    return text(review(query));
  }

  static String text(Response answer) throws IOException {
    try (PDDocument document = document(answer)) {
      return words(new PDFTextStripper().getText(document));
    }
  }

  static String words(String text) {
    return text.lines().collect(Collectors.joining(" ")).replaceAll("\\s+", " ");
  }
}
