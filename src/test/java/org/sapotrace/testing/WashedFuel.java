package org.sapotrace.testing;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/** A stream of washed fuel on a running service. */
public final class WashedFuel {

  public static final String LINE = "/api/v1/lines/harbour";
  public static final String STREAM = LINE + "/streams/washed";

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String GIVEN = "{\"given\": {\"centre\": 33, \"sigma\": 2}}";

  private WashedFuel() {}

  /** The line, its stream, the results of the guide and limits from them. */
  public static void record(RunningService service) throws Exception {
    put(service, STREAM);
    String rows = Files.readString(Path.of("docs", "example", "washed-fuel.ndjson"));
    imported(service, STREAM, rows);
    adopt(service, STREAM, "{\"baseline\": {\"first\": 30}}");
  }

  /** The line, its stream and limits that are given. */
  public static void prepare(RunningService service) {
    put(service, STREAM);
    adopt(service, STREAM, GIVEN);
  }

  /** Another result, long after all others. */
  public static void recordOneMore(RunningService service) {
    String row = "{\"batch\": \"K-1\", \"sampledAt\": \"2026-11-01T06:00:00Z\", \"values\": [31]}";
    assertThat(send(service, "POST", STREAM + "/results", row).statusCode()).isEqualTo(201);
  }

  /**
   * Holds what clients were told against what is stored: each result once, as it was acknowledged,
   * and judged as if all had come one by one in their order.
   */
  public static void assertStored(RunningService service, Map<String, JsonNode> told) {
    List<JsonNode> stored = results(service, STREAM);
    assertThat(stored)
        .extracting(result -> result.get("batch").asText())
        .doesNotHaveDuplicates()
        .containsExactlyInAnyOrderElementsOf(told.keySet());
    assertThat(stored)
        .allSatisfy(
            result -> {
              JsonNode acknowledged = told.get(result.get("batch").asText());
              assertThat(result.get("id")).isEqualTo(acknowledged.get("id"));
              assertThat(result.at("/result/value")).isEqualTo(acknowledged.at("/result/value"));
            });
    assertThat(stored)
        .extracting(result -> result.at("/control/position").asInt())
        .containsExactlyElementsOf(IntStream.rangeClosed(1, stored.size()).boxed().toList());
    assertThat(judged(service, STREAM)).isEqualTo(judgedOneByOne(service, stored));
  }

  private static List<String> judgedOneByOne(RunningService service, List<JsonNode> stored) {
    String again = LINE + "/streams/again-" + stored.size();
    put(service, again);
    adopt(service, again, GIVEN);
    for (JsonNode result : stored) {
      String row =
          "{\"batch\": %s, \"sampledAt\": %s, \"values\": [%s]}"
              .formatted(result.get("batch"), result.get("sampledAt"), result.at("/result/value"));
      assertThat(send(service, "POST", again + "/results", row).statusCode()).isEqualTo(201);
    }
    return judged(service, again);
  }

  /** How each point stands on both charts, and the signals with where they were raised. */
  private static List<String> judged(RunningService service, String stream) {
    List<String> judged = new ArrayList<>();
    for (String kind : List.of("individuals", "ewma")) {
      JsonNode chart = json(service.get(stream + "/charts/" + kind + ".json").body());
      for (JsonNode point : chart.get("points")) {
        judged.add(
            "%s %s %s %s"
                .formatted(
                    point.get("batch"),
                    point.get("value"),
                    point.get("plotted"),
                    point.get("signals")));
      }
    }
    String slug = stream.substring(stream.lastIndexOf('/') + 1);
    String listed = "/api/v1/signals?limit=1000&line=harbour&stream=" + slug;
    List<String> signals = new ArrayList<>();
    for (JsonNode signal : json(service.get(listed).body()).get("items")) {
      if (!signal.get("state").asText().equals("lapsed")) {
        signals.add(signal.get("rule") + " since " + signal.get("startedAt"));
      }
    }
    signals.sort(Comparator.naturalOrder());
    judged.addAll(signals);
    return judged;
  }

  private static List<JsonNode> results(RunningService service, String stream) {
    List<JsonNode> results = new ArrayList<>();
    String cursor = "";
    do {
      JsonNode page = json(service.get(stream + "/results?limit=1000" + cursor).body());
      page.get("items").forEach(results::add);
      cursor = page.get("next").isNull() ? "" : "&cursor=" + page.get("next").asText();
    } while (!cursor.isEmpty());
    return results;
  }

  private static void put(RunningService service, String stream) {
    send(service, "PUT", LINE, "{\"name\": \"Harbour line\", \"alkali\": \"sodium\"}");
    HttpResponse<String> put =
        send(
            service,
            "PUT",
            stream,
            """
            {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
             "unit": "mg/kg"}
            """);
    assertThat(put.statusCode()).as(put.body()).isEqualTo(201);
  }

  private static void adopt(RunningService service, String stream, String limits) {
    HttpResponse<String> adopted = send(service, "POST", stream + "/limits", limits);
    assertThat(adopted.statusCode()).as(adopted.body()).isEqualTo(201);
  }

  /** Sends rows to be imported; the answer. */
  public static JsonNode imported(RunningService service, String stream, String rows) {
    HttpResponse<String> answer =
        service.send(
            HttpRequest.newBuilder(service.baseUrl().resolve(stream + "/imports"))
                .header("Content-Type", "application/x-ndjson")
                .POST(HttpRequest.BodyPublishers.ofString(rows))
                .build());
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    return json(answer.body());
  }

  public static JsonNode json(String text) {
    try {
      return JSON.readTree(text);
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  /** Sends JSON. */
  public static HttpResponse<String> send(
      RunningService service, String method, String path, String body) {
    return service.send(
        HttpRequest.newBuilder(service.baseUrl().resolve(path))
            .header("Content-Type", "application/json")
            .method(method, HttpRequest.BodyPublishers.ofString(body))
            .build());
  }
}
