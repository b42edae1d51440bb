package org.sapotrace.forecast;

import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.restassured.response.Response;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.atomic.AtomicInteger;

/** A sodium line of its own with a crude and a tower behind it; day 0 is 1 January 2026. */
final class Tower {

  private static final AtomicInteger LINES = new AtomicInteger();
  private static final Instant NEW_YEAR = Instant.parse("2026-01-01T06:00:00Z");
  // c M 1000 of 0.01 mol/L and sodium oleate, in mg/kg for each mL on each g.
  private static final double K = 0.01 * 304.45 * 1000;
  private static final double SAMPLE_G = 100;

  final String line;
  final String slug;
  final String path;

  private Tower(String line, String slug) {
    this.line = line;
    this.slug = slug;
    path = "/lines/%s/streams/%s".formatted(line, slug);
  }

  static Tower make() {
    String line = "tower-" + LINES.incrementAndGet();
    json(201, put("/lines/" + line, "{\"name\": \"Tower line\", \"alkali\": \"sodium\"}"));
    stream(line, "crude", "crude", "null");
    stream(line, "polished", "after-dry-wash", "\"crude\"");
    return new Tower(line, "polished");
  }

  /** The tower behind this one. */
  Tower behind() {
    stream(line, "lag", "after-dry-wash", "\"" + slug + "\"");
    return new Tower(line, "lag");
  }

  /** Another stream of the line, with that specification as JSON. */
  Tower beside(String other, String samplingPoint, String specification) {
    stream(line, other, samplingPoint, "null, \"specification\": " + specification);
    return new Tower(line, other);
  }

  /** A stream of the line behind a wash of the crude. */
  Tower washed() {
    stream(line, "washed", "after-wash", "\"crude\"");
    return new Tower(line, "washed");
  }

  private static void stream(String line, String slug, String samplingPoint, String inlet) {
    json(
        201,
        put(
            "/lines/%s/streams/%s".formatted(line, slug),
            """
            {"name": "%s", "samplingPoint": "%s", "measurand": "soap", "unit": "mg/kg",
             "inlet": %s}
            """
                .formatted(slug, samplingPoint, inlet)));
  }

  void event(String kind, double day) {
    event(kind, day, slug);
  }

  /** An event that names some streams of the line. */
  void event(String kind, double day, String... slugs) {
    json(
        201,
        post(
            "/lines/%s/events".formatted(line),
            "{\"kind\": \"%s\", \"at\": \"%s\", \"streams\": [\"%s\"]}"
                .formatted(kind, at(day), String.join("\", \"", slugs))));
  }

  void newPhase(double day) {
    json(
        201,
        post(
            "/lines/%s/events".formatted(line),
            "{\"kind\": \"other\", \"at\": \"%s\", \"newPhase\": true}".formatted(at(day))));
  }

  void measureInlet(double day, double value) {
    new Tower(line, "crude").value(day, value);
  }

  /** Of the batch of another day. */
  JsonNode measureInlet(double day, double value, int batch) {
    return json(
        201,
        post(
            "/lines/%s/streams/crude/results".formatted(line),
            "{\"batch\": \"B-%d\", \"sampledAt\": \"%s\", \"values\": [%s]}"
                .formatted(batch, at(day), value)));
  }

  /** A result that was measured elsewhere. */
  JsonNode value(double day, double value) {
    return json(
        201,
        post(
            path + "/results",
            "{\"batch\": \"B-%.0f\", \"sampledAt\": \"%s\", \"values\": [%s]}"
                .formatted(day, at(day), value)));
  }

  JsonNode titrate(double day, double soap, String throughput, Double inlet) {
    return json(201, post(path + "/titrations", titration(day, soap, throughput, inlet)));
  }

  /** A titration of the batch of another day. */
  void again(double day, double soap, int batch, String throughput) {
    json(
        201,
        post(
            path + "/titrations",
            titration(day, soap, throughput, null)
                .replace("\"B-%.0f\"".formatted(day), "\"B-%d\"".formatted(batch))));
  }

  Response tryToTitrate(double day, String throughput) {
    return post(path + "/titrations", titration(day, 20, throughput, null));
  }

  static String titration(double day, double soap, String throughput, Double inlet) {
    return """
        {"batch": "B-%.0f", "sampledAt": "%s", "titrant": {"normality": 0.01}, "blankMl": 0, "replicates": [{"titrantMl": %s, "sampleG": %s}], "throughput": %s, "inletMgPerKg": %s}
        """
        .formatted(day, at(day), soap * SAMPLE_G / K, SAMPLE_G, throughput, inlet)
        .strip();
  }

  static Instant at(double day) {
    return NEW_YEAR.plus(Duration.ofMinutes(Math.round(day * 24 * 60)));
  }

  JsonNode forecast() {
    return json(200, get(path + "/forecast"));
  }

  static double parameter(JsonNode forecast, String name, String unit) {
    for (JsonNode parameter : forecast.get("parameters")) {
      if (parameter.get("name").asText().equals(name)
          && parameter.get("unit").asText().equals(unit)) {
        return parameter.get("value").asDouble();
      }
    }
    throw new AssertionError("no %s in %s: %s".formatted(name, unit, forecast));
  }
}
