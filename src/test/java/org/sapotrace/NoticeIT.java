package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.Receiver;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;
import org.sapotrace.testing.ShownStep;

/** Notices of the packaged service, and the guide to them as it is written. */
class NoticeIT {

  private static final Path GUIDE = Path.of("docs", "integration.md");
  private static final Path PACKAGES = Path.of("target", "npm", "node_modules");
  private static final Duration PATIENCE = Duration.ofSeconds(60);
  private static final ObjectMapper JSON = new ObjectMapper();

  private static Setup on(Path directory) {
    return Setup.on(directory).withEnvironment("SAPOTRACE_NOTICE_ALLOWED_HOSTS", "127.0.0.1");
  }

  /** The receiver of the guide, whose checks are those of the package standardwebhooks. */
  private static final class Node implements AutoCloseable {
    private final Path output;
    private final Process process;

    Node(String secret, int port) throws IOException {
      output = Files.createTempFile(Path.of("target"), "receiver-", ".log");
      ProcessBuilder builder =
          new ProcessBuilder("node", "docs/example/receiver.js", secret, String.valueOf(port));
      builder.environment().put("NODE_PATH", PACKAGES.toAbsolutePath().toString());
      process = builder.redirectErrorStream(true).redirectOutput(output.toFile()).start();
      await().atMost(PATIENCE).until(() -> said().contains("listening on "));
    }

    String said() throws IOException {
      return Files.readString(output);
    }

    void awaitSaid(String text) {
      await().atMost(PATIENCE).untilAsserted(() -> assertThat(said()).contains(text));
    }

    int port() throws IOException {
      return Integer.parseInt(said().lines().findFirst().orElseThrow().replaceAll("\\D", ""));
    }

    @Override
    public void close() {
      process.destroy();
    }
  }

  private static void needsNode() {
    boolean there;
    try {
      there = new ProcessBuilder("node", "-v").start().waitFor() == 0;
    } catch (IOException none) {
      there = false;
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      there = false;
    }
    Assumptions.assumeTrue(
        there && Files.isDirectory(PACKAGES.resolve("standardwebhooks")),
        "No independent receiver found: npm install --prefix target/npm standardwebhooks");
  }

  @Test
  void areCheckedByAnIndependentReceiverAsTheGuideSays(@TempDir Path directory) throws Exception {
    needsNode();
    int port;
    try (Node probe = new Node("whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw", 0)) {
      port = probe.port();
    }
    List<ShownStep> steps = new ArrayList<>();
    for (ShownStep step : ShownStep.in(GUIDE)) {
      steps.add(
          new ShownStep(
              GUIDE,
              step.command().replace(":9000", ":" + port),
              step.answer().replace(":9000", ":" + port)));
    }
    try (RunningService service = on(directory).start()) {
      String secret = null;
      for (ShownStep step : steps.subList(0, 4)) {
        byte[] answer = step.send(service.baseUrl());
        step.assertAnswered(answer);
        secret = JSON.readTree(answer).path("secret").asText();
      }
      try (Node receiver = new Node(secret, port)) {
        steps.get(4).assertAnswered(steps.get(4).send(service.baseUrl()));
        for (String shown : printed()) {
          receiver.awaitSaid(shown);
        }
        await()
            .atMost(PATIENCE)
            .until(
                () ->
                    new String(steps.get(5).send(service.baseUrl()), StandardCharsets.UTF_8)
                        .contains("delivered"));
        steps.get(5).assertAnswered(steps.get(5).send(service.baseUrl()));
        assertThat(receiver.said()).doesNotContain("refused");
      }
      changesTheSecret(service, port, secret);
    }
  }

  /** What the guide says that its receiver prints, without the address of the chart. */
  private static List<String> printed() throws IOException {
    String behind = Files.readString(GUIDE).split("<!-- receiver-prints -->\n```\n", 2)[1];
    return behind.substring(0, behind.indexOf("```")).lines().toList();
  }

  private static void changesTheSecret(RunningService service, int port, String former)
      throws IOException {
    String secret = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";
    send(
        service,
        "PUT",
        "/subscriptions/shift-lead",
        "{\"url\": \"http://127.0.0.1:%d/\", \"secret\": \"%s\"}".formatted(port, secret));
    for (String known : List.of(former, secret)) {
      try (Node receiver = new Node(known, port)) {
        record(service, "jetty", 91);
        receiver.awaitSaid("verdict.nonconforming");
        assertThat(receiver.said()).doesNotContain("refused");
      }
    }
    try (Node stranger = new Node("whsec_c3RyYW5nZXJzdHJhbmdlcnN0cmFuZ2Vy", port)) {
      record(service, "jetty", 92);
      stranger.awaitSaid("refused: No matching signature found");
    }
  }

  @Test
  void surviveAKillWhileTheReceiverIsAway(@TempDir Path directory) throws Exception {
    int port;
    try (Receiver gone = new Receiver()) {
      port = gone.port();
    }
    RunningService service = on(directory).start();
    try {
      define(service, port);
      for (int i = 0; i < 5; i++) {
        record(service, "jetty", 90 + i);
      }
      await().atMost(PATIENCE).until(() -> deliveries(service).at("/items/0/attempts").asInt() > 0);
      service.kill9();
      try (Receiver receiver = new Receiver(port);
          RunningService again = on(directory).start()) {
        await()
            .atMost(PATIENCE)
            .untilAsserted(
                () ->
                    assertThat(deliveries(again).findValuesAsText("state"))
                        .hasSize(5)
                        .containsOnly("delivered"));
        assertThat(receiver.ids().stream().distinct()).containsExactlyElementsOf(ids(again));
      }
    } finally {
      service.close();
    }
  }

  private static List<String> ids(RunningService service) {
    List<String> ids = new ArrayList<>();
    deliveries(service).get("items").forEach(each -> ids.add(each.get("id").asText()));
    return ids;
  }

  /** Readers of the feed would otherwise hold up the end for as long as requests are waited for. */
  @Test
  void doNotHoldUpTheEndOfTheService(@TempDir Path directory) throws Exception {
    try (RunningService service = on(directory).start()) {
      HttpResponse<java.io.InputStream> feed =
          HttpClient.newHttpClient()
              .send(
                  HttpRequest.newBuilder(service.baseUrl().resolve("/api/v1/notices")).build(),
                  HttpResponse.BodyHandlers.ofInputStream());
      assertThat(feed.statusCode()).isEqualTo(200);
      service.terminate();
      assertThat(service.output()).doesNotContain("Timed out");
      assertThat(feed.body().readAllBytes()).asString().startsWith(":the feed stands here");
    }
  }

  private static void define(RunningService service, int port) {
    send(service, "PUT", "/lines/jetty", "{\"name\": \"Jetty line\", \"alkali\": \"sodium\"}");
    send(
        service,
        "PUT",
        "/lines/jetty/streams/washed",
        """
        {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
         "unit": "mg/kg"}
        """);
    send(
        service,
        "PUT",
        "/subscriptions/shift-lead",
        "{\"url\": \"http://127.0.0.1:%d/\"}".formatted(port));
  }

  private static void record(RunningService service, String line, double value) {
    send(
        service,
        "POST",
        "/lines/%s/streams/washed/results".formatted(line),
        "{\"batch\": \"B\", \"sampledAt\": \"2026-03-17T09:20:00Z\", \"values\": [%s]}"
            .formatted(value));
  }

  private static JsonNode deliveries(RunningService service) {
    return json(service.get("/api/v1/subscriptions/shift-lead/deliveries"));
  }

  private static void send(RunningService service, String method, String path, String body) {
    json(
        service.send(
            HttpRequest.newBuilder(service.baseUrl().resolve("/api/v1" + path))
                .header("Content-Type", "application/json")
                .method(method, HttpRequest.BodyPublishers.ofString(body))
                .build()));
  }

  private static JsonNode json(HttpResponse<String> answer) {
    assertThat(answer.statusCode()).as(answer.body()).isBetween(200, 201);
    try {
      return JSON.readTree(answer.body());
    } catch (IOException notJson) {
      throw new java.io.UncheckedIOException(notJson);
    }
  }
}
