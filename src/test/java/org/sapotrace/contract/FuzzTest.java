package org.sapotrace.contract;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.sql.SQLException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.sapotrace.notice.TestRelay;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.Contract;
import org.sapotrace.testing.ContractOperation;
import org.sapotrace.testing.Exchange;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RawHttp;

/** Asks every operation of the contract for what nobody should ask for. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class FuzzTest {

  private static final Pattern INNER_LIFE =
      Pattern.compile(
          "(?i)exception|stacktrace|\\b(java|javax|jakarta|org|com|io|net)\\.[a-z]|\\.java|jackson"
              + "|hibernate|quarkus|vert\\.x|postgres|sql|<html|[A-Z]\\w*View\\[");
  private static final int MOST_TOLD = 20;

  @TestHTTPResource("/")
  URL service;

  @Inject DataSource database;

  private final Map<String, String> objections = new LinkedHashMap<>();

  @Test
  void refusesInGoodOrderAndStoresNothingOfWhatItRefuses() throws SQLException {
    Stored stored = new Stored(database);
    int sent = 0;
    for (ContractOperation operation : Contract.get().all()) {
      List<HostileRequests.Request> requests =
          HostileRequests.of(operation, known(operation, setUp()));
      String before = stored.state();
      for (HostileRequests.Request request : requests) {
        sent++;
        Exchange exchange = send(request);
        String after = operation.method().equals("GET") ? before : stored.state();
        boolean mayStore = exchange.status() < 300 && !operation.method().equals("GET");
        if (!mayStore && !after.equals(before)) {
          object(exchange, "stored something: " + before + " became " + after);
        }
        before = after;
        check(exchange);
      }
      assertThat(stored.state()).as("what is stored after %s", operation).isEqualTo(before);
    }
    assertThat(objections.values()).as("objections to %d answers", sent).isEmpty();
    assertThat(sent).isGreaterThan(2_000);
  }

  private void check(Exchange exchange) {
    exchange.objections().forEach(objection -> object(exchange, objection));
    if (exchange.status() == 0 || exchange.status() >= 500) {
      object(exchange, "failed");
    } else if (exchange.status() >= 400
        && INNER_LIFE.matcher(withoutTypes(told(exchange))).find()) {
      object(exchange, "tells its inner life");
    }
  }

  /** The types of notices read like packages, and are everybody's to know. */
  private static String withoutTypes(String told) {
    String rest = told;
    for (JsonNode type : Contract.get().at("/components/schemas/NoticeType/enum")) {
      rest = rest.replace(type.asText(), "");
    }
    return rest;
  }

  private void object(Exchange exchange, String objection) {
    if (objections.size() < MOST_TOLD) {
      objections.putIfAbsent(
          exchange.method() + objection,
          "%s of %s answered %s: %s"
              .formatted(
                  exchange, shortened(exchange.body()), shortened(exchange.answer()), objection));
    }
  }

  /** What there is to be found, by the names of the parameters that find it. */
  private static Map<String, String> setUp() {
    Api.TestStream stream = Api.TestStream.soap();
    stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 3}}");
    JsonNode beyond = stream.record(50);
    String lot = "lot-of-" + stream.line;
    Api.json(
        201,
        Api.put(
            "/titrants/" + lot,
            "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01}"));
    Api.json(
        201,
        Api.post(
            "/titrants/%s/standardisations".formatted(lot),
            """
            {"standard": "tris", "performedAt": "2026-03-02T07:30:00Z",
             "replicates": [{"standardG": 0.0302, "titrantMl": 25.0}]}
            """));
    JsonNode restated =
        Api.json(
            201, Api.post("/titrants/%s/restatements".formatted(lot), "{\"reason\": \"drift\"}"));
    JsonNode event =
        Api.json(
            201,
            Api.post(
                "/lines/%s/events".formatted(stream.line),
                "{\"kind\": \"other\", \"at\": \"2026-03-02T07:30:00Z\"}"));
    JsonNode key = Api.json(201, Api.post("/keys", "{\"name\": \"a\", \"scopes\": [\"read\"]}"));
    String subscription = "of-" + stream.line;
    Api.json(
        201,
        Api.put(
            "/subscriptions/" + subscription,
            "{\"url\": \"https://alerts.plant.example/\", \"lines\": [\"%s\"]}"
                .formatted(stream.line)));
    stream.record(90);
    TestRelay.number();
    JsonNode deliveries =
        Api.json(200, Api.get("/subscriptions/%s/deliveries".formatted(subscription)));
    return Map.of(
        "subscription", subscription,
        "subscriptions", deliveries.at("/items/0/id").asText(),
        "lot", lot,
        "events", event.path("id").asText(),
        "keys", key.path("id").asText(),
        "titrants", restated.path("id").asText(),
        "line", stream.line,
        "stream", stream.path.substring(stream.path.lastIndexOf('/') + 1),
        "results", beyond.path("id").asText(),
        "signals", beyond.at("/control/signals/0/id").asText());
  }

  /** An {@code id} means a result, a signal or an event by the path it stands in. */
  private static Map<String, String> known(ContractOperation operation, Map<String, String> known) {
    String kind = operation.path().split("/")[3];
    return Map.of(
        "line", known.get("line"),
        "stream", known.get("stream"),
        "lot", known.get("lot"),
        "subscription", known.get("subscription"),
        "id", known.getOrDefault(kind, ""));
  }

  private Exchange send(HostileRequests.Request request) {
    byte[] body = request.body() == null ? new byte[0] : request.body();
    RawHttp.Answer answer =
        new RawHttp(service.getPort())
            .request(
                request.method(),
                request.target(),
                body,
                request.body() != null,
                request.headers().toArray(new String[0]));
    String type =
        request.headers().stream()
            .filter(header -> header.startsWith("Content-Type: "))
            .map(header -> header.substring("Content-Type: ".length()))
            .findFirst()
            .orElse("");
    return new Exchange(
        request.method(),
        request.target(),
        type,
        body,
        answer.status(),
        answer.headers(),
        answer.body().getBytes(StandardCharsets.UTF_8));
  }

  /** All of a problem but the path, which is the caller's own. */
  private static String told(Exchange exchange) {
    try {
      JsonNode problem = new ObjectMapper().readTree(exchange.answer());
      if (problem instanceof ObjectNode object) {
        object.remove("instance");
      }
      return problem.toString();
    } catch (IOException notJson) {
      return shortened(exchange.answer());
    }
  }

  private static String shortened(byte[] text) {
    String whole = new String(text, StandardCharsets.UTF_8);
    return whole.length() <= 400 ? whole : whole.substring(0, 400) + "…";
  }
}
