package org.sapotrace.contract;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.sapotrace.notice.TestRelay;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.Contract;
import org.sapotrace.testing.ContractOperation;
import org.sapotrace.testing.PostgresResource;

/** Sends the requests of the contract, and expects the answers that it shows. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ContractExamplesTest {

  private static final String LINE = "/lines/harbour";
  private static final String STREAM = LINE + "/streams/polished";

  private static final String JSON = "/content/application~1json";
  private static final String LOT = "/titrants/hcl-07";

  private static final String SUBSCRIPTION = "/subscriptions/shift-lead";

  private static final Pattern NUMBER = Pattern.compile("(?<= = )-?[0-9.]+(E-?[0-9]+)?$");

  private final Contract contract = Contract.get();

  @Test
  void areAnswersOfTheService() {
    answers("putLine", 201, LINE);
    answers("putStream", 201, STREAM);
    JsonNode titrated = answers("recordTitration", 201, STREAM + "/titrations");
    answers("importEntries", 200, STREAM + "/imports");
    answers("adoptLimits", 201, STREAM + "/limits");
    JsonNode measured = answers("recordResult", 201, STREAM + "/results");

    answers("putLine", 200, LINE);
    answers("putStream", 200, STREAM);
    answers("getLine", 200, LINE);
    answers("getStream", 200, STREAM);
    answers("listStreams", 200, LINE + "/streams");
    answers("listResults", 200, STREAM + "/results?from=2026-03-14T00:00:00Z");
    answers("getResult", 200, "/results/" + titrated.path("id").asText());
    answers("listLimits", 200, STREAM + "/limits");
    answers("getLimits", 200, STREAM + "/limits/1");
    JsonNode event = answers("recordEvent", 201, LINE + "/events");
    answers("listEvents", 200, LINE + "/events");
    answers("getEvent", 200, "/events/" + event.path("id").asText());
    answers("getChart", 200, STREAM + "/charts/individuals.json?last=2");
    JsonNode signals = answers("listSignals", 200, "/signals?line=harbour");
    String signal = "/signals/" + signals.at("/items/0/id").asText();
    answers("getSignal", 200, signal);
    JsonNode explained = answers("putFinding", 200, signal + "/finding");
    JsonNode finding = Api.json(200, Api.get(signal + "/finding"));
    assertThat(finding).isEqualTo(explained.path("finding"));
    answers("listGlassware", 200, "/glassware?limit=1");
    answers("listBalances", 200, "/balances?limit=1");
    answers("correctResult", 201, "/results/" + measured.path("id").asText() + "/corrections");
    document();
    refuses();
  }

  /** Of a document the contract shows what is asked, and not what is answered. */
  private void document() {
    String asked =
        contract.operation("getReview").parameters("query").stream()
            .map(each -> each.name() + "=" + contract.at(each.pointer() + "/example").asText())
            .collect(Collectors.joining("&"));
    Response answer = Api.get(LINE + "/review.pdf?" + asked);
    assertThat(answer.statusCode()).as(asked).isEqualTo(200);
    assertThat(answer.contentType()).isEqualTo("application/pdf");
  }

  /** Of the titrations of the README's walk, and of one sample that three analysts titrated. */
  @Test
  void areThePrecisionOfTitrations() throws IOException {
    String inland = "/lines/inland";
    String washed = inland + "/streams/washed";
    Api.json(201, Api.put(inland, "{\"name\": \"Inland line\", \"alkali\": \"sodium\"}"));
    Api.json(
        201,
        Api.put(
            washed,
            """
            {"name": "Fuel after the wash", "samplingPoint": "after-wash", "measurand": "soap",
             "unit": "mg/kg"}
            """));
    byte[] rows = Files.readAllBytes(Path.of("docs", "example", "washed-fuel.ndjson"));
    given()
        .contentType("application/x-ndjson")
        .body(rows)
        .post("/api/v1" + washed + "/imports")
        .then()
        .statusCode(200);
    titrate(washed, "ak", 1.68, 1.66);
    titrate(washed, "jt", 1.73, 1.71);
    titrate(washed, "mh", 1.66, 1.67);
    answers("getPrecision", 200, washed + "/precision");
  }

  @Test
  void areRemovals() {
    String mill = "/lines/mill";
    Api.json(201, Api.put(mill, "{\"name\": \"Mill line\", \"alkali\": \"sodium\"}"));
    String soap =
        """
        {"name": "%s", "samplingPoint": "%s", "measurand": "soap", "unit": "mg/kg", "inlet": %s}
        """;
    Api.json(201, Api.put(mill + "/streams/crude", soap.formatted("Crude", "crude", "null")));
    Api.json(
        201,
        Api.put(mill + "/streams/washed", soap.formatted("Washed", "after-wash", "\"crude\"")));
    measure(mill + "/streams/crude", "06:10", 1180, 40);
    measure(mill + "/streams/washed", "09:20", 35.4, 4);
    JsonNode points = Api.json(200, Api.get(mill + "/streams/washed-removal/results"));
    JsonNode removal = Api.json(200, Api.get("/results/" + points.at("/items/0/id").asText()));

    ContractOperation operation = contract.operation("getResult");
    JsonNode examples = contract.at(operation.response(200).orElseThrow() + JSON + "/examples");
    assertThat(told(removal)).isEqualTo(told(examples.at("/removal/value")));
  }

  private static void measure(String stream, String time, double value, double expanded) {
    Api.json(
        201,
        Api.post(
            stream + "/results",
            """
            {"batch": "K-0142", "sampledAt": "2026-03-04T%s:00Z", "values": [%s],
             "expandedUncertainty": %s, "coverageFactor": 2}
            """
                .formatted(time, value, expanded)));
  }

  private static void titrate(String stream, String analyst, double first, double second) {
    Api.json(
        201,
        Api.post(
            stream + "/titrations",
            """
            {"batch": "K-0146", "sampledAt": "2026-02-28T07:10:00Z", "analyst": "%s",
             "titrant": {"normality": 0.01002, "standardUncertainty": 0.00003}, "blankMl": 0.06,
             "glassware": "measuring-pipette-5ml",
             "replicates": [{"titrantMl": %s, "sampleG": 100}, {"titrantMl": %s, "sampleG": 100}]}
            """
                .formatted(analyst, first, second)));
  }

  /** The subgroups before the one of the example. */
  private static final String[] LOADED = {
    "21.4, 23.0, 22.1",
    "24.8, 23.9, 22.5",
    "20.6, 22.2",
    "23.3, 21.0, 22.7",
    "22.9, 24.6, 23.1",
    "21.8",
    "22.4, 20.9, 23.5",
    "24.1, 22.8, 22.0",
    "21.2, 22.6, 24.0"
  };

  @Test
  void areSubgroups() {
    String loaded = "/lines/pontoon/streams/loaded";
    Api.json(
        201, Api.put("/lines/pontoon", "{\"name\": \"Pontoon line\", \"alkali\": \"sodium\"}"));
    answers("putStream", 201, loaded, "loaded");
    for (int i = 0; i < LOADED.length; i++) {
      Api.json(
          201,
          Api.post(
              loaded + "/results",
              "{\"batch\": \"T-%d\", \"sampledAt\": \"2026-04-%02dT08:00:00Z\", \"values\": [%s]}"
                  .formatted(201 + i, 1 + i, LOADED[i])));
    }
    answers("adoptLimits", 201, loaded + "/limits", "subgroups");
    answers("recordResult", 201, loaded + "/results", "subgroup");
    answers("getChart", 200, loaded + "/charts/mean.json?last=2", "mean");
    answers("getChart", 200, loaded + "/charts/range.json?last=1", "range");
  }

  @Test
  void areTitrantLots() {
    answers("putLot", 201, LOT);
    answers("recordStandardisation", 201, LOT + "/standardisations");

    answers("putLot", 200, LOT);
    answers("getLot", 200, LOT);
    answers("listStandardisations", 200, LOT + "/standardisations");
    JsonNode restated = answers("restate", 201, LOT + "/restatements");
    answers("listRestatements", 200, LOT + "/restatements");
    answers("getRestatement", 200, LOT + "/restatements/" + restated.path("id").asText());
    answers("getStrengthChart", 200, LOT + "/strength/charts/individuals.json");
    Api.json(
        201,
        Api.post(
            LOT + "/standardisations",
            example(contract.operation("recordStandardisation").requestBody() + JSON, "")
                .replace("2026-03-02", "2026-04-01")
                .replace("9.95", "9.70")
                .replace("9.98", "9.73")));
    answers("getStrength", 200, LOT + "/strength?at=2026-04-02T00:00:00Z");
  }

  /** The example is that of the README's walk, before the wash went out of control. */
  @Test
  void areCapabilities() throws IOException {
    String washed = "/lines/river/streams/washed";
    Api.json(201, Api.put("/lines/river", "{\"name\": \"River line\", \"alkali\": \"sodium\"}"));
    Api.json(
        201,
        Api.put(
            washed,
            """
            {"name": "Fuel after the wash", "samplingPoint": "after-wash", "measurand": "soap",
             "unit": "mg/kg", "chart": {"rules": "western-electric-1956"}}
            """));
    Api.json(
        200,
        given()
            .contentType("application/x-ndjson")
            .body(Files.readAllBytes(Path.of("docs/example/washed-fuel.ndjson")))
            .post("/api/v1" + washed + "/imports"));
    Api.json(201, Api.post(washed + "/limits", "{\"baseline\": {\"first\": 30}}"));
    answers("getCapability", 200, washed + "/charts/capability.json?to=2026-02-24T00:00:00Z");
  }

  @Test
  void areNotices() {
    String line = "/lines/breakwater";
    Api.json(201, Api.put(line, "{\"name\": \"Breakwater line\", \"alkali\": \"sodium\"}"));
    Api.json(
        201,
        Api.put(
            line + "/streams/washed",
            """
            {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
             "unit": "mg/kg"}
            """));
    answers("putSubscription", 201, SUBSCRIPTION);
    answers("putSubscription", 200, SUBSCRIPTION);
    answers("getSubscription", 200, SUBSCRIPTION);
    answers("listSubscriptions", 200, "/subscriptions");
    Api.json(
        201,
        Api.post(
            line + "/streams/washed/results",
            """
            {"batch": "K-0160", "sampledAt": "2026-03-16T09:20:00Z", "values": [90.0],
             "expandedUncertainty": 4.0, "coverageFactor": 2.0}
            """));
    TestRelay.number();
    JsonNode deliveries = answers("listDeliveries", 200, SUBSCRIPTION + "/deliveries");
    String id = deliveries.at("/items/0/id").asText();
    answers("resendDelivery", 200, SUBSCRIPTION + "/deliveries/" + id + "/resend");
  }

  /**
   * Of an invented tower: k = 0.02, half of 1200 mg/kg through after 550 bed volumes, and scatter.
   */
  @Test
  void areForecasts() {
    String polished = "/lines/mole/streams/polished";
    Api.json(201, Api.put("/lines/mole", "{\"name\": \"Mole line\", \"alkali\": \"sodium\"}"));
    Api.json(
        201,
        Api.put(
            polished,
            """
            {"name": "Fuel after the dry-wash tower", "samplingPoint": "after-dry-wash",
             "measurand": "soap", "unit": "mg/kg"}
            """));
    Api.json(
        201,
        Api.post(
            "/lines/mole/events",
            "{\"kind\": \"media-change\", \"at\": \"2026-03-01T06:00:00Z\"}"));
    answers("getForecast", 200, polished + "/forecast", "new");
    double[] titrantMl = {0.25, 0.39, 0.54, 0.87, 1.23};
    for (int i = 0; i < titrantMl.length; i++) {
      Api.json(
          201,
          Api.post(
              polished + "/titrations",
              """
              {"batch": "K-%d", "sampledAt": "2026-03-%dT09:20:00Z",
               "titrant": {"normality": 0.01, "standardUncertainty": 0.00002}, "blankMl": 0.02,
               "glassware": "measuring-pipette-2ml",
               "replicates": [{"titrantMl": %s, "sampleG": 100}],
               "throughput": {"litres": %d, "bedVolumes": %d}, "inletMgPerKg": 1200}
              """
                  .formatted(150 + i, 14 + i, titrantMl[i], 7500 + 500 * i, 300 + 20 * i)));
    }
    answers("getForecast", 200, polished + "/forecast", "breakthrough");
  }

  @Test
  void areCalculations() {
    answers("calculateSoap", 200, "/calculations/soap");
    answers("calculateFreeAlkali", 200, "/calculations/free-alkali");
    answers("calculateAcidNumber", 200, "/calculations/acid-number");
    answers("calculateFreeFattyAcid", 200, "/calculations/free-fatty-acid");
    answers("calculateStandardisation", 200, "/calculations/standardisation");
    answers("planTest", 200, "/calculations/test-plan");
    answers("designChart", 200, "/calculations/chart-design");
    answers("calculateMetalEquivalent", 200, "/calculations/metal-equivalent");
  }

  @Test
  void areKeys() {
    String id = answers("makeKey", 201, "/keys").path("id").asText();
    answers("getKey", 200, "/keys/" + id);
    answers("listKeys", 200, lastPage("/keys?limit=1"));
    answers("revokeKey", 200, "/keys/" + id + "/revocation");
  }

  @Test
  void areEntriesOfTheLedger() {
    String line = "/lines/quay";
    Api.json(201, Api.put(line, "{\"name\": \"Quay line\", \"alkali\": \"sodium\"}"));
    Api.json(
        201,
        Api.put(
            line + "/streams/washed",
            """
            {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
             "unit": "mg/kg", "chart": {"ewma": null}}
            """));
    measure(line + "/streams/washed", "09:20", 35.4, 4);
    answers("listLedger", 200, "/ledger?line=quay&stream=washed");
    answers("verifyLedger", 200, "/ledger/verification");
  }

  /** Other tests make keys as well; this one's is the last. */
  private static String lastPage(String list) {
    String page = list;
    for (JsonNode next = next(page); !next.isNull(); next = next(page)) {
      page = list + "&cursor=" + next.asText();
    }
    return page;
  }

  private static JsonNode next(String page) {
    return Api.json(200, Api.get(page)).path("next");
  }

  private void refuses() {
    String line = example(contract.operation("putLine").requestBody() + JSON, "");
    shows("BadRequest", Api.put(LINE, "{\"name\": \"Harbour line\", \"alkalie\": \"sodium\"}"));
    shows(
        "Forbidden",
        given()
            .contentType("application/json")
            .header("Origin", "https://plant.example")
            .body(line)
            .put("/api/v1" + LINE));
    shows("NotFound", Api.get("/lines/harbor"));
    shows("NotAcceptable", given().accept("image/png").get("/api/v1" + LINE));
    shows("Conflict", Api.put(LINE, "{\"name\": \"Harbour line\", \"alkali\": \"potassium\"}"));
    shows(
        "Outdated",
        given()
            .contentType("application/json")
            .header("If-Match", "\"9\"")
            .body(line)
            .put("/api/v1" + LINE));
    shows("TooLarge", Api.put(LINE, "{" + " ".repeat(1 << 20) + "}"));
    shows(
        "UnsupportedMediaType", given().contentType("text/plain").body("x").put("/api/v1" + LINE));
    shows("HeadersTooLarge", given().header("X-Long", "a".repeat(20_000)).get("/api/v1" + LINE));
  }

  private void shows(String component, Response answer) {
    String media = "/components/responses/" + component + "/content/application~1problem+json";
    JsonNode expected = contract.at(media + "/example");
    JsonNode found = Api.json(expected.path("status").asInt(), answer);
    assertThat(told(found)).as(component).isEqualTo(told(expected));
  }

  /** Sends the example of an operation, where it has a body, and expects its example answer. */
  private JsonNode answers(String id, int status, String path) {
    return answers(id, status, path, "");
  }

  /**
   * The same with the examples of a name.
   *
   * @param name of the examples where there are several; the first where none has it
   */
  private JsonNode answers(String id, int status, String path, String name) {
    ContractOperation operation = contract.operation(id);
    var request = given();
    for (String type : operation.mediaTypesTaken().stream().limit(1).toList()) {
      request.contentType(type);
      String media = operation.requestBody() + "/content/" + type.replace("/", "~1");
      request.body(example(media, name).getBytes(StandardCharsets.UTF_8));
    }
    JsonNode found = Api.json(status, request.request(operation.method(), "/api/v1" + path));
    String answer = operation.response(status).orElseThrow() + JSON;
    assertThat(told(found)).as("%s %s", id, status).isEqualTo(told(exampleNode(answer, name)));
    return found;
  }

  private String example(String media, String name) {
    JsonNode node = exampleNode(media, name);
    return node.isTextual() ? node.asText() : node.toString();
  }

  private JsonNode exampleNode(String media, String name) {
    JsonNode node = contract.at(media);
    if (node.has("example")) {
      return node.get("example");
    }
    JsonNode examples = node.path("examples");
    JsonNode chosen = examples.has(name) ? examples.get(name) : examples.elements().next();
    return contract.resolve(chosen).path("value");
  }

  /** What an answer says, but for identifiers, when it was recorded, and the last digits. */
  private static Set<String> told(JsonNode answer) {
    Set<String> told = new TreeSet<>();
    for (String leaf : Leaves.of(answer)) {
      told.add(
          NUMBER
              .matcher(leaf)
              .replaceFirst(
                  number -> String.format(Locale.ROOT, "%.7e", Double.valueOf(number.group())))
              .replaceAll("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", "an identifier")
              .replaceAll("(sapo_|/id = \")[0-9a-f]{16}", "$1an identifier")
              .replaceAll("_[\\w-]{43}\"$", "_…\"")
              .replaceAll("[0-9a-f]{64}", "a hash")
              .replaceAll("(/items/[0-9]+/head|^/entries) = .*", "$1 = a number")
              .replaceAll(
                  "(/(?:recordedAt|adoptedAt|raisedAt|createdAt|finding/at|revocation/at|time|nextTryAt|items/[0-9]+/at) = ).*",
                  "$1now"));
    }
    return told;
  }
}
