package org.sapotrace;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.Mosquitto;
import org.sapotrace.testing.Receiver;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;
import org.sapotrace.testing.ShownStep;

/** The packaged service and a broker and clients of others' making: Eclipse Mosquitto. */
class MqttIT {

  private static final Duration PATIENCE = Duration.ofSeconds(90);
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Path GUIDE = Path.of("docs", "integration.md");
  private static final String STREAM = "sapotrace/v1/lines/jetty/streams/washed/";
  private static final String MEASURED =
      """
      {"specversion": "1.0", "source": "urn:plant:titrator-2", "id": "%s",
       "type": "org.sapotrace.result.measured", "operator": "an attribute of somebody's own",
       "data": {"batch": "K-0161", "sampledAt": "2026-03-17T09:20:00Z", "values": [%s]}}
      """;

  @TempDir static Path directory;

  private static Mosquitto broker;
  private static RunningService service;

  private Receiver webhook;
  private Path notices;

  @BeforeAll
  static void start() throws IOException {
    assumeTrue(Mosquitto.isInstalled(), "No Mosquitto found: nothing was published by MQTT");
    broker = Mosquitto.in(Files.createDirectory(directory.resolve("broker")));
    service =
        Setup.on(directory.resolve("data"))
            .withEnvironment("SAPOTRACE_NOTICE_ALLOWED_HOSTS", "127.0.0.1")
            .withEnvironment("SAPOTRACE_MQTT_URL", broker.url())
            .withEnvironment("SAPOTRACE_MQTT_USERNAME", Mosquitto.USER)
            .withEnvironment("SAPOTRACE_MQTT_PASSWORD", Mosquitto.PASSWORD)
            .start();
    send("PUT", "/lines/jetty", "{\"name\": \"Jetty line\", \"alkali\": \"sodium\"}");
    send(
        "PUT",
        "/lines/jetty/streams/washed",
        """
        {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
         "unit": "mg/kg"}
        """);
  }

  @AfterAll
  static void stop() {
    try {
      if (service != null) {
        service.close();
      }
    } finally {
      if (broker != null) {
        broker.close();
      }
    }
  }

  @BeforeEach
  void listen() throws IOException {
    notices = broker.subscribe("sapotrace/v1/+/+/+/+/notices/+");
    webhook = new Receiver();
    send("PUT", "/subscriptions/lead", "{\"url\": \"%s\"}".formatted(webhook.url()));
  }

  @AfterEach
  void hangUp() {
    if (webhook != null) {
      webhook.close();
    }
  }

  @Test
  void noticesArriveAsTheWebhookHasThemAndInOrderThoughBrokerAndServiceWereAway() throws Exception {
    record(90);
    awaitAsManyAsTheWebhookHas(1);

    broker.stop();
    for (int i = 0; i < 5; i++) {
      record(91 + i);
    }
    service.awaitOutput("is away, and notices wait");
    awaitWebhook(6);
    assertThat(Mosquitto.lines(notices)).hasSize(1);
    broker.start();
    awaitAsManyAsTheWebhookHas(6);
    assertThat(service.output().split("is away", -1)).as("said once").hasSize(2);

    record(97);
    service = service.restartAfterKill9();
    awaitAsManyAsTheWebhookHas(7);
  }

  private void awaitWebhook(int most) {
    await().atMost(PATIENCE).until(() -> webhook.all().size() >= most);
  }

  /** The webhook has each once, unless its service was killed while it waited for an answer. */
  private void awaitAsManyAsTheWebhookHas(int notices) {
    awaitWebhook(notices);
    List<String> told =
        webhook.all().stream()
            .map(got -> STREAM + "notices/org.sapotrace.verdict.nonconforming " + got.body())
            .distinct()
            .toList();
    await()
        .atMost(PATIENCE)
        .untilAsserted(
            () ->
                assertThat(Mosquitto.lines(this.notices).stream().distinct())
                    .containsExactlyElementsOf(told));
    assertThat(told).hasSize(notices);
  }

  @Test
  void aResultThatIsPublishedTwiceIsRecordedOnce() throws Exception {
    Path answers = broker.subscribe(STREAM + "recorded");
    int before = results().size();
    for (int i = 0; i < 2; i++) {
      broker.publish(STREAM + "results", MEASURED.formatted("41", "31.5"));
    }
    await().atMost(PATIENCE).until(() -> Mosquitto.lines(answers).size() == 2);
    assertThat(Mosquitto.lines(answers).stream().distinct()).hasSize(1);

    assertThat(results()).hasSize(before + 1);
    JsonNode answer = JSON.readTree(Mosquitto.lines(answers).get(0).split(" ", 2)[1]);
    JsonNode recorded = get("/results/" + answer.get("result").asText());
    assertThat(answer.get("id").asText()).isEqualTo("41");
    assertThat(answer.get("source").asText()).isEqualTo("urn:plant:titrator-2");
    assertThat(answer.get("position")).isEqualTo(recorded.at("/control/position"));
    assertThat(answer.get("verdict")).isEqualTo(recorded.at("/verdict/outcome"));
    assertThat(recorded.at("/result/value").asDouble()).isEqualTo(31.5);
  }

  @Test
  void whatIsRefusedIsAnsweredAndWhatFollowsIsTaken() throws Exception {
    Path refusals = broker.subscribe("sapotrace/v1/lines/+/streams/+/refused");
    Path answers = broker.subscribe(STREAM + "recorded");
    Path tooLong = directory.resolve("long.json");
    Files.writeString(tooLong, " ".repeat(3_000_000) + MEASURED.formatted("51", "31.5"));

    broker.publish(STREAM + "results", "{no JSON");
    broker.publish(STREAM + "results", tooLong);
    broker.publish(STREAM + "results", MEASURED.formatted("52", "\"many\""));
    broker.publish(
        "sapotrace/v1/lines/quay/streams/washed/results", MEASURED.formatted("53", "31.5"));
    broker.publish(STREAM + "results", MEASURED.formatted("54", "31.5"));

    await().atMost(PATIENCE).until(() -> Mosquitto.lines(answers).size() == 1);
    assertThat(Mosquitto.lines(answers).get(0)).contains("\"id\":\"54\"");
    assertThat(Mosquitto.lines(refusals))
        .satisfiesExactly(
            refused -> assertThat(refused).contains("malformed-request").doesNotContain("\"id\""),
            refused -> assertThat(refused).contains("too-large"),
            refused -> assertThat(refused).contains("\"id\":\"52\"", "#/values/0"),
            refused ->
                assertThat(refused)
                    .startsWith("sapotrace/v1/lines/quay/streams/washed/refused ")
                    .contains("\"id\":\"53\"", "not-found"));
  }

  /** The broker keeps for the service what comes meanwhile, and the guide's result is one. */
  @Test
  void whatIsPublishedAsTheGuideSaysWhileTheServiceIsAwayIsRecorded() throws Exception {
    Path answers = broker.subscribe(STREAM + "recorded");
    service.terminate();
    broker.run(shown("mqtt-result"));
    service = service.again();

    await().atMost(PATIENCE).until(() -> Mosquitto.lines(answers).size() == 1);
    String answer = Mosquitto.lines(answers).get(0).split(" ", 2)[1];
    new ShownStep(GUIDE, "mosquitto_pub", shown("mqtt-recorded"))
        .assertAnswered(answer.getBytes(UTF_8));
  }

  /** What the guide has in the block behind a mark. */
  private static String shown(String mark) throws IOException {
    String block = Files.readString(GUIDE).split("<!-- " + mark + " -->\n```\\w*\n", 2)[1];
    return block.substring(0, block.indexOf("```"));
  }

  private static void record(double value) {
    send(
        "POST",
        "/lines/jetty/streams/washed/results",
        """
        {"batch": "B", "sampledAt": "2026-03-17T09:20:00Z", "values": [%s],
         "expandedUncertainty": 4, "coverageFactor": 2}
        """
            .formatted(value));
  }

  private static JsonNode results() {
    return get("/lines/jetty/streams/washed/results?limit=200").get("items");
  }

  private static JsonNode get(String path) {
    return json(service.get("/api/v1" + path));
  }

  private static void send(String method, String path, String body) {
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
