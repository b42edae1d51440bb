package org.sapotrace.testing;

import static io.restassured.RestAssured.given;
import static io.restassured.config.JsonConfig.jsonConfig;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.restassured.RestAssured;
import io.restassured.config.RestAssuredConfig;
import io.restassured.http.ContentType;
import io.restassured.path.json.config.JsonPathConfig;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;

/** Speaks to the service under test as a client does. */
public final class Api {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final AtomicInteger LINES = new AtomicInteger();

  private static volatile String key;

  private Api() {}

  static {
    RestAssured.config =
        RestAssuredConfig.config()
            .jsonConfig(jsonConfig().numberReturnType(JsonPathConfig.NumberReturnType.DOUBLE));
  }

  /** From now on requests come with a key; with none again where it is null. */
  public static void hold(String newKey) {
    key = newKey;
  }

  /** A request with the key that is held. */
  public static RequestSpecification request() {
    return key == null ? given() : given().header("Authorization", "Bearer " + key);
  }

  public static Response post(String path, String body) {
    return request().contentType(ContentType.JSON).body(body).post("/api/v1" + path);
  }

  public static Response put(String path, String body) {
    return request().contentType(ContentType.JSON).body(body).put("/api/v1" + path);
  }

  public static Response get(String path) {
    return request().get("/api/v1" + path);
  }

  /** The JSON of an answer that must have that status. */
  public static JsonNode json(int status, Response answer) {
    if (answer.statusCode() != status) {
      throw new AssertionError(
          "expected %d, was %d: %s".formatted(status, answer.statusCode(), answer.asString()));
    }
    try {
      return JSON.readTree(answer.asByteArray());
    } catch (IOException notJson) {
      throw new UncheckedIOException(notJson);
    }
  }

  /** A new line with one stream, which no other test knows. */
  public static final class TestStream {

    public final String line;
    public final String path;
    private Instant next = Instant.parse("2026-01-05T06:00:00Z");

    private TestStream(String line, String path) {
      this.line = line;
      this.path = path;
    }

    /** A stream of any quantity, charted by the run rules given as JSON and by nothing else. */
    public static TestStream other(String rules) {
      return charted("{\"rules\": %s, \"ewma\": null}".formatted(rules));
    }

    /** A stream of any quantity, charted as described in JSON. */
    public static TestStream charted(String chart) {
      return with(
          """
          {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
           "chart": %s}
          """
              .formatted(chart));
    }

    /** A stream of soap after the wash of a sodium line. */
    public static TestStream soap() {
      return with(
          """
          {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
           "unit": "mg/kg"}
          """);
    }

    /** A stream as described in JSON. */
    public static TestStream with(String definition) {
      String line = "line-" + LINES.incrementAndGet();
      json(201, put("/lines/" + line, "{\"name\": \"Line\", \"alkali\": \"sodium\"}"));
      String path = "/lines/" + line + "/streams/watched";
      json(201, put(path, definition));
      return new TestStream(line, path);
    }

    /** Records a value, sampled an hour after the one before. */
    public JsonNode record(double value) {
      JsonNode recorded = recordAt(value, next);
      next = next.plus(Duration.ofHours(1));
      return recorded;
    }

    /** Records a value for a sample taken at that time. */
    public JsonNode recordAt(double value, Instant sampledAt) {
      return json(
          201,
          post(
              path + "/results",
              "{\"batch\": \"B\", \"sampledAt\": \"%s\", \"values\": [%s]}"
                  .formatted(sampledAt, value)));
    }

    public JsonNode chart(String kind) {
      return json(200, get(path + "/charts/" + kind + ".json"));
    }

    /** The points of the individuals chart, by what they say and not by their identifiers. */
    public List<JsonNode> judgedPoints() {
      return judgedPoints("individuals");
    }

    /** The points of a chart, by what they say and not by their identifiers. */
    public List<JsonNode> judgedPoints(String kind) {
      List<JsonNode> points = new ArrayList<>();
      chart(kind)
          .get("points")
          .forEach(point -> points.add(((ObjectNode) point.deepCopy()).without("result")));
      return points;
    }

    /** The signals that hold, by what they say and not by their identifiers. */
    public List<String> liveSignals() {
      List<String> live = new ArrayList<>();
      json(200, get("/signals?line=%s&state=unexplained&limit=1000".formatted(line)))
          .get("items")
          .forEach(
              s ->
                  live.add(
                      "%s %s from %s to %s, %s"
                          .formatted(
                              s.get("rule").asText(),
                              s.get("side").asText(),
                              sampledAt(s.get("result").asText()),
                              s.get("lastPointAt").asText(),
                              s.get("count").asInt())));
      return live;
    }

    private static String sampledAt(String result) {
      return json(200, get("/results/" + result)).get("sampledAt").asText();
    }

    /** Adopts limits as described in JSON. */
    public JsonNode adopt(String limits) {
      return json(201, post(path + "/limits", limits));
    }
  }
}
