package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;

/** What was answered with 201 is there after the service was killed while results came in. */
class RecordSurvivesKillIT {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String STREAM = "/api/v1/lines/harbour/streams/washed";
  private static final int CLIENTS = 4;
  private static final int ENOUGH = 60;

  @Test
  void keepsEveryAcknowledgedResultAndNothingByHalf(@TempDir Path directory) throws Exception {
    try (RunningService service = Setup.on(directory).start()) {
      put(service, "/api/v1/lines/harbour", "{\"name\": \"Harbour line\", \"alkali\": \"sodium\"}");
      put(
          service,
          STREAM,
          """
          {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
           "unit": "mg/kg"}
          """);
      Map<String, Double> acknowledged = recordUntilKilled(service);
      try (RunningService next = service.restartAfterKill9()) {
        Map<String, Double> stored = new HashMap<>();
        List<Integer> positions = new ArrayList<>();
        for (JsonNode result : json(next.get(STREAM + "/results?limit=1000")).get("items")) {
          stored.put(result.get("id").asText(), result.at("/result/value").asDouble());
          positions.add(result.at("/control/position").asInt());
        }
        assertThat(acknowledged).hasSizeGreaterThanOrEqualTo(ENOUGH);
        assertThat(stored).containsAllEntriesOf(acknowledged);
        // What was under way may have been recorded or not, and no more than that.
        assertThat(stored).hasSizeLessThanOrEqualTo(acknowledged.size() + CLIENTS);
        assertThat(positions)
            .containsExactlyElementsOf(IntStream.rangeClosed(1, stored.size()).boxed().toList());
        assertThat(json(next.get(STREAM + "/charts/individuals.json")).get("points"))
            .hasSize(stored.size());
        System.out.printf(
            "Killed after %d acknowledged results; %d on record.%n",
            acknowledged.size(), stored.size());
      }
    }
  }

  private static Map<String, Double> recordUntilKilled(RunningService service) throws Exception {
    Map<String, Double> acknowledged = new ConcurrentHashMap<>();
    CountDownLatch enough = new CountDownLatch(ENOUGH);
    ExecutorService clients = Executors.newFixedThreadPool(CLIENTS);
    for (int client = 0; client < CLIENTS; client++) {
      int first = client;
      clients.submit(
          () -> {
            for (int i = first; ; i += CLIENTS) {
              JsonNode recorded = record(service, i);
              acknowledged.put(
                  recorded.get("id").asText(), recorded.at("/result/value").asDouble());
              enough.countDown();
            }
          });
    }
    assertThat(enough.await(60, TimeUnit.SECONDS)).isTrue();
    service.kill9();
    clients.shutdownNow();
    assertThat(clients.awaitTermination(30, TimeUnit.SECONDS)).isTrue();
    return acknowledged;
  }

  private static JsonNode record(RunningService service, int i) throws IOException {
    String body =
        """
        {"batch": "K-%d", "sampledAt": "2026-03-01T%02d:%02d:%02dZ", "values": [%d.5]}
        """
            .formatted(i, i / 3600 % 24, i / 60 % 60, i % 60, 30 + i % 7);
    HttpResponse<String> answer = send(service, "POST", STREAM + "/results", body);
    if (answer.statusCode() != 201) {
      throw new IllegalStateException(answer.statusCode() + " " + answer.body());
    }
    return json(answer);
  }

  private static void put(RunningService service, String path, String body) {
    assertThat(send(service, "PUT", path, body).statusCode()).isEqualTo(201);
  }

  private static HttpResponse<String> send(
      RunningService service, String method, String path, String body) {
    return service.send(
        HttpRequest.newBuilder(service.baseUrl().resolve(path))
            .header("Content-Type", "application/json")
            .method(method, HttpRequest.BodyPublishers.ofString(body))
            .build());
  }

  private static JsonNode json(HttpResponse<String> answer) throws IOException {
    return JSON.readTree(answer.body());
  }
}
