package org.sapotrace.contract;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.access.KeyRing;
import org.sapotrace.access.NewKey;
import org.sapotrace.http.Scope;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.Contract;
import org.sapotrace.testing.ContractOperation;
import org.sapotrace.testing.KeysProfile;
import org.sapotrace.testing.PostgresResource;

/** Asks every operation of the contract with keys that are not for it. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
@TestProfile(KeysProfile.class)
class AccessTest {

  private static final List<Scope> ALL_BUT_KEYS = List.of(Scope.READ, Scope.RECORD, Scope.REVIEW);
  private static final String NO_ID = "01a2123c-1e7a-7659-b1c2-3a7ffe49715f";

  /** Operations that are about no line: a key for some lines reads there, and changes nothing. */
  private static final String PLANT_WIDE = ".*/(calculations/.*|glassware|balances|titrants.*)";

  @Inject KeyRing keyRing;

  private final List<String> objections = new ArrayList<>();

  @BeforeEach
  void administer() {
    Api.hold(key(List.of(Scope.ADMINISTER)));
  }

  @AfterEach
  void holdNoKey() {
    Api.hold(null);
  }

  private String key(List<Scope> scopes, String... lines) {
    return keyRing
        .make(new NewKey("a test", scopes, lines.length == 0 ? null : List.of(lines), null))
        .text();
  }

  @Test
  void refusesKeysWithoutTheScope() {
    Map<String, String> none = none();
    for (Scope held : Scope.values()) {
      Api.hold(key(List.of(held)));
      for (ContractOperation operation : Contract.get().all()) {
        String needed = operation.node().at("/security/1/key/0").asText();
        boolean may = held == Scope.ADMINISTER || held.id().equals(needed);
        int status = send(operation, none).statusCode();
        // What may be asked is refused for the names, as nothing is there that has them.
        if ((status == 403) == may || status == 401 || status >= 500) {
          objections.add("%s with %s: %d".formatted(operation, held.id(), status));
        }
      }
    }
    assertThat(objections).isEmpty();
  }

  /** To a key for another line what is there is as what is not: same status, same words. */
  @Test
  void hidesOtherLinesFromKeysThatAreForOne() {
    Map<String, String> foreign = recorded();
    Map<String, String> none = none();
    List<String> before = look(foreign);
    Api.hold(key(ALL_BUT_KEYS, Api.TestStream.soap().line));
    int hidden = 0;
    for (ContractOperation operation : Contract.get().all()) {
      Response answer = send(operation, foreign);
      int expected = expected(operation);
      if (answer.statusCode() != expected) {
        objections.add("%s: %s".formatted(operation, answer.asString()));
      } else if (expected == 404) {
        hidden++;
        String told = without(foreign, answer.asString());
        if (!told.equals(without(none, send(operation, none).asString()))) {
          objections.add("%s tells of what is there: %s".formatted(operation, told));
        }
      }
    }
    assertThat(objections).isEmpty();
    assertThat(hidden).isGreaterThan(20);
    administer();
    assertThat(look(foreign)).isEqualTo(before);
  }

  private static int expected(ContractOperation operation) {
    String path = operation.path();
    String needed = operation.node().at("/security/1/key/0").asText();
    if (needed.equals("administer") || path.matches(".*/(notices|verification)")) {
      return 403;
    }
    if (path.matches(PLANT_WIDE)) {
      return needed.equals("read") ? 200 : 403;
    }
    return path.contains("{") ? 404 : 200;
  }

  @Test
  void listsOnlyWhatTheKeyIsFor() {
    Map<String, String> foreign = recorded();
    Api.TestStream own = Api.TestStream.soap();
    own.adopt("{\"given\": {\"centre\": 30, \"sigma\": 3}}");
    own.record(50);
    Api.hold(key(List.of(Scope.READ), own.line));

    assertThat(all("/lines", "line")).containsExactly(own.line);
    assertThat(all("/signals", "line")).containsOnly(own.line);
    assertThat(all("/titrants", "lot")).contains(foreign.get("lot"));
    Api.json(404, Api.get("/signals?line=" + foreign.get("line")));
  }

  @Test
  void tellsOfARestatementTheResultsOfTheKeysLinesOnly() {
    Map<String, String> foreign = recorded();
    String path =
        "/titrants/%s/restatements/%s".formatted(foreign.get("lot"), foreign.get("titrants"));
    assertThat(Api.json(200, Api.get(path)).path("changed")).hasSize(1);
    Api.hold(key(List.of(Scope.READ), foreign.get("line")));
    assertThat(Api.json(200, Api.get(path)).path("changed")).hasSize(1);
    administer();

    Api.hold(key(List.of(Scope.READ), Api.TestStream.soap().line));

    assertThat(Api.json(200, Api.get(path)).path("changed")).isEmpty();
    JsonNode list =
        Api.json(200, Api.get("/titrants/%s/restatements".formatted(foreign.get("lot"))));
    assertThat(list.at("/items/0/changed")).isEmpty();
  }

  @Test
  void letsAKeyForOneLineWorkThere() {
    Api.TestStream own = Api.TestStream.soap();
    Map<String, String> foreign = recorded();
    Api.hold(key(ALL_BUT_KEYS, own.line));

    own.adopt("{\"given\": {\"centre\": 30, \"sigma\": 3}}");
    JsonNode recorded = own.record(50);
    Api.json(200, Api.get("/results/" + recorded.path("id").asText()));
    Api.json(200, Api.get("/signals/" + recorded.at("/control/signals/0/id").asText()));
    Api.json(
        201,
        Api.post(
            "/results/%s/corrections".formatted(recorded.path("id").asText()),
            "{\"reason\": \"misread\", \"values\": [31]}"));
    Api.json(201, titrate(own.path, foreign.get("lot")));
    // The standardisation is a result of no line: to be read, and changed by none but the plant's.
    String standardisation = "/results/" + foreign.get("standardisation");
    Api.json(200, Api.get(standardisation));
    Api.json(
        403,
        Api.post(standardisation + "/corrections", "{\"reason\": \"a\", \"withdrawn\": true}"));
  }

  private static List<String> all(String list, String field) {
    List<String> found = new ArrayList<>();
    Api.json(200, Api.get(list + "?limit=1000"))
        .path("items")
        .forEach(item -> found.add(item.path(field).asText()));
    return found;
  }

  /** A stream with a result, a signal and a lot that was titrated with and restated. */
  private static Map<String, String> recorded() {
    Api.TestStream stream = Api.TestStream.soap();
    stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 3}}");
    JsonNode beyond = stream.record(50);
    String lot = "/titrants/lot-of-" + stream.line;
    Api.json(201, Api.put(lot, "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01}"));
    JsonNode first = standardise(lot, "2026-03-01T07:30:00Z", 25.0);
    Api.json(201, titrate(stream.path, lot.substring(10)));
    standardise(lot, "2026-03-20T07:30:00Z", 24.5);
    JsonNode restated = Api.json(201, Api.post(lot + "/restatements", "{\"reason\": \"drift\"}"));
    JsonNode event =
        Api.json(
            201,
            Api.post(
                "/lines/%s/events".formatted(stream.line),
                "{\"kind\": \"other\", \"at\": \"2026-03-02T07:30:00Z\"}"));
    return Map.of(
        "line", stream.line,
        "stream", "watched",
        "events", event.path("id").asText(),
        "lot", lot.substring(10),
        "standardisation", first.path("id").asText(),
        "titrants", restated.path("id").asText(),
        "results", beyond.path("id").asText(),
        "signals", beyond.at("/control/signals/0/id").asText());
  }

  private static JsonNode standardise(String lot, String at, double titrantMl) {
    return Api.json(
        201,
        Api.post(
            lot + "/standardisations",
            """
            {"standard": "tris", "performedAt": "%s",
             "replicates": [{"standardG": 0.0302, "titrantMl": %s}]}
            """
                .formatted(at, titrantMl)));
  }

  private static Response titrate(String stream, String lot) {
    return Api.post(
        stream + "/titrations",
        """
        {"batch": "K-0142", "sampledAt": "2026-03-10T09:20:00Z", "titrant": {"lot": "%s"},
         "blankMl": 0, "replicates": [{"titrantMl": 0.47, "sampleG": 40.03}]}
        """
            .formatted(lot));
  }

  private static Map<String, String> none() {
    return Map.of(
        "line",
        "no-such-line",
        "stream",
        "watched",
        "lot",
        "no-such-lot",
        "titrants",
        NO_ID,
        "results",
        NO_ID,
        "signals",
        NO_ID);
  }

  private static List<String> look(Map<String, String> there) {
    String stream = "/lines/%s/streams/%s".formatted(there.get("line"), there.get("stream"));
    return List.of(
        Api.get("/lines/" + there.get("line")).asString(),
        Api.get(stream).asString(),
        Api.get(stream + "/results").asString(),
        Api.get(stream + "/limits").asString(),
        Api.get("/titrants/" + there.get("lot") + "/standardisations").asString());
  }

  private static String without(Map<String, String> names, String told) {
    for (String name : names.values()) {
      told = told.replace(name, "…");
    }
    return told;
  }

  private static Response send(ContractOperation operation, Map<String, String> names) {
    String path = operation.path();
    for (ContractOperation.Parameter parameter : operation.parameters("path")) {
      String name = parameter.name().equals("id") ? path.split("/")[3] : parameter.name();
      String example = Contract.get().at(parameter.pointer() + "/example").asText();
      path = path.replace("{" + parameter.name() + "}", names.getOrDefault(name, example));
    }
    RequestSpecification request = Api.request();
    for (String type : operation.mediaTypesTaken().stream().limit(1).toList()) {
      String media = operation.requestBody() + "/content/" + type.replace("/", "~1");
      request.contentType(type).body(example(media).getBytes(StandardCharsets.UTF_8));
    }
    // The live feed does not end by itself.
    return request.request(path.endsWith("/notices") ? "HEAD" : operation.method(), path);
  }

  private static String example(String media) {
    JsonNode node = Contract.get().at(media);
    JsonNode value =
        node.has("example")
            ? node.get("example")
            : Contract.get().resolve(node.path("examples").elements().next()).path("value");
    return value.isTextual() ? value.asText() : value.toString();
  }
}
