package org.sapotrace;

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
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.Mosquitto;
import org.sapotrace.testing.Receiver;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;

/** The packaged service and a broker and clients of others' making: Eclipse Mosquitto. */
class MqttIT {

  private static final Duration PATIENCE = Duration.ofSeconds(90);
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String STREAM = "sapotrace/v1/lines/jetty/streams/washed/";
  private static final String MEASURED =
      """
      {"specversion": "1.0", "source": "urn:plant:titrator-2", "id": "%s",
       "type": "org.sapotrace.result.measured", "operator": "an attribute of somebody's own",
       "data": {"batch": "K-0161", "sampledAt": "2026-03-17T09:20:00Z", "values": [%s]}}
      """;

  @TempDir static Path data;

  @TempDir Path directory;

  private Mosquitto broker;
  private Receiver webhook;
  private RunningService service;
  private Path notices;

  @BeforeEach
  void start() throws IOException {
    assumeTrue(Mosquitto.isInstalled(), "No Mosquitto found: nothing was published by MQTT");
    broker = Mosquitto.in(directory);
    notices = broker.subscribe("sapotrace/v1/+/+/+/+/notices/+");
    webhook = new Receiver();
    service = setup().start();
    define();
  }

  private Setup setup() {
    return Setup.on(data)
        .withEnvironment("SAPOTRACE_NOTICE_ALLOWED_HOSTS", "127.0.0.1")
        .withEnvironment("SAPOTRACE_MQTT_URL", broker.url())
        .withEnvironment("SAPOTRACE_MQTT_USERNAME", Mosquitto.USER)
        .withEnvironment("SAPOTRACE_MQTT_PASSWORD", Mosquitto.PASSWORD);
  }

  @AfterEach
  void stop() {
    if (service != null) {
      service.close();
    }
    if (webhook != null) {
      webhook.close();
    }
    if (broker != null) {
      broker.close();
    }
  }

  private void define() {
    send("PUT", "/lines/jetty", "{\"name\": \"Jetty line\", \"alkali\": \"sodium\"}");
    send(
        "PUT",
        "/lines/jetty/streams/washed",
        """
        {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
         "unit": "mg/kg"}
        """);
    send("PUT", "/subscriptions/lead", "{\"url\": \"%s\"}".formatted(webhook.url()));
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

  /** The broker keeps for the service what comes while the service is away. */
  @Test
  void whatWasPublishedWhileTheServiceWasAwayIsRecorded() throws Exception {
    int before = results().size();
    service.terminate();
    broker.publish(STREAM + "results", MEASURED.formatted("61", "30.5"));
    service = setup().start();
    await().atMost(PATIENCE).until(() -> results().size() == before + 1);
  }

  private void record(double value) {
    send(
        "POST",
        "/lines/jetty/streams/washed/results",
        """
        {"batch": "B", "sampledAt": "2026-03-17T09:20:00Z", "values": [%s],
         "expandedUncertainty": 4, "coverageFactor": 2}
        """
            .formatted(value));
  }

  private JsonNode results() {
    return get("/lines/jetty/streams/washed/results?limit=200").get("items");
  }

  private JsonNode get(String path) {
    return json(service.get("/api/v1" + path));
  }

  private void send(String method, String path, String body) {
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
