package org.sapotrace.testing;

import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.restassured.response.Response;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;

/** A new line with soap before and behind a wash, which no other test knows. */
public final class Wash {

  public static final Instant START = Instant.parse("2026-02-01T06:00:00Z");

  private static final AtomicInteger LINES = new AtomicInteger();
  private static final String STREAM =
      """
      {"name": "%s", "samplingPoint": "%s", "measurand": "soap", "unit": "mg/kg"%s}
      """;

  public final String line = "wash-line-" + LINES.incrementAndGet();
  public final String path = "/lines/" + line + "/streams/";

  private Wash() {
    json(201, put("/lines/" + line, "{\"name\": \"Line\", \"alkali\": \"sodium\"}"));
    json(201, put(path + "crude", STREAM.formatted("Crude fuel", "crude", "")));
    json(201, put(path + "washed", STREAM.formatted("Washed fuel", "after-wash", "")));
  }

  /** A wash whose removal is not watched yet. */
  public static Wash unwatched() {
    return new Wash();
  }

  /** A wash whose removal is watched. */
  public static Wash watched() {
    Wash wash = new Wash();
    json(200, wash.watch("washed", "crude"));
    return wash;
  }

  /** Puts a stream of washed soap with an inlet; null for none. */
  public Response watch(String stream, String inlet) {
    return put(
        path + stream,
        STREAM.formatted(
            "Washed fuel",
            "after-wash",
            ", \"inlet\": " + (inlet == null ? "null" : "\"" + inlet + "\"")));
  }

  /** When the sample of that number was taken, an hour after the one before. */
  public static Instant at(int hour) {
    return START.plus(Duration.ofHours(hour));
  }

  /** Records a value of a batch; answers the result. */
  public JsonNode record(String stream, String batch, int hour, double value) {
    return json(201, post(path + stream + "/results", body(batch, hour, value)));
  }

  /** What is sent to record a value. */
  public static String body(String batch, int hour, double value) {
    return "{\"batch\": \"%s\", \"sampledAt\": \"%s\", \"values\": [%s]}"
        .formatted(batch, at(hour), value);
  }

  /** Corrects a result, as described in JSON beside the reason. */
  public static JsonNode correct(JsonNode result, String change) {
    return json(
        201,
        post(
            "/results/%s/corrections".formatted(result.get("id").asText()),
            "{\"reason\": \"misread\", %s}".formatted(change)));
  }

  /** The removals that are charted, in order, such as {@code K-1 2.302585 2026-02-01T07:00:00Z}. */
  public List<String> removals() {
    List<String> told = new ArrayList<>();
    points("washed-removal")
        .forEach(
            point ->
                told.add(
                    "%s %.6f %s"
                        .formatted(
                            point.get("batch").asText(),
                            point.get("value").asDouble(),
                            point.get("at").asText())));
    return told;
  }

  /** The points of a stream's chart of individual results. */
  public JsonNode points(String stream) {
    return json(200, get(path + stream + "/charts/individuals.json")).get("points");
  }

  /** A removal that is charted, as it is read again. */
  public JsonNode removal(int position) {
    String id = points("washed-removal").get(position - 1).get("result").asText();
    return json(200, get("/results/" + id));
  }
}
