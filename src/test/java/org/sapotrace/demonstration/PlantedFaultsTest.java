package org.sapotrace.demonstration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.TestResourceScope;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.washmodel.Breakthrough;
import org.sapotrace.washmodel.Forecast;

/**
 * On the demonstration plant each planted fault is found, dated and named, and
 * docs/demonstration.md says what the service says. The plant ends on a fixed day here, so that the
 * pictures stay the same; they are written to the folder that {@code -Ddemonstration.pictures}
 * names.
 */
@QuarkusTest
@WithTestResource(value = PostgresResource.class, scope = TestResourceScope.RESTRICTED_TO_CLASS)
class PlantedFaultsTest {

  private static final LocalDate LAST = LocalDate.parse("2026-03-01");
  private static final Days DAYS = Days.until(LAST);
  private static final DateTimeFormatter DATE =
      DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
  private static final Path PAGE = Path.of("docs", "demonstration.md");
  private static final Path TOLD = Path.of("target", "demonstration");
  private static final Path PICTURES =
      Path.of(System.getProperty("demonstration.pictures", TOLD.toString()));

  /** How many days after its first a fault may be dated, or before it. */
  private static final int NEAR = 5;

  private static boolean isFilled;

  @Inject DemonstrationPlant plant;

  @BeforeEach
  void fill() {
    if (!isFilled) {
      assertThat(plant.state()).isEqualTo(DemonstrationPlant.State.NOTHING_AT_ALL);
      plant.fill(LAST, day -> {});
      isFilled = true;
    }
  }

  /** Where a fault is looked for, and what the service makes of it. */
  private enum Seen {
    BLANK(Fault.BLANK, "sodium", "check", "check", "blank", 42),
    TITRANT(Fault.TITRANT, "sodium", "check", "check", "titrant", 12),
    WASH(Fault.WASH, "sodium", "washed-removal", "washed-removal", "wash", 42),
    TOWER(Fault.TOWER, "potassium", "polished-removal", "polished", "wash", 42),
    /** Neither titrant nor blank: the service tells that it is a person by comparing them. */
    ANALYST(Fault.ANALYST, "sodium", "check", "check", "undecided", 35);

    private final Fault fault;
    private final String line;
    private final String stream;
    private final String shown;
    private final String cause;
    private final int before;

    Seen(Fault fault, String line, String stream, String shown, String cause, int before) {
      this.fault = fault;
      this.line = line;
      this.stream = stream;
      this.shown = shown;
      this.cause = cause;
      this.before = before;
    }

    /** The signals that were raised while the fault was there, in order. */
    List<JsonNode> signals() {
      JsonNode all =
          json(200, get("/signals?line=%s&stream=%s&limit=1000".formatted(line, stream)));
      return StreamSupport.stream(all.get("items").spliterator(), false)
          .filter(signal -> fault.isThere(openedOn(signal)))
          .filter(signal -> !signal.get("state").asText().equals("lapsed"))
          .toList();
    }

    private static int openedOn(JsonNode signal) {
      String result = signal.get("result").asText();
      return day(json(200, get("/results/" + result)).get("sampledAt").asText());
    }

    /** The chart from some weeks before the fault to the evening on which it is found. */
    String chart(String form) {
      return "/lines/%s/streams/%s/charts/individuals.%s?from=%s&to=%s"
          .formatted(
              line, shown, form, DAYS.at(fault.first() - before, 0), DAYS.at(fault.found(), 18));
    }

    String picture() {
      return label() + ".png";
    }

    String label() {
      return fault.name().toLowerCase(Locale.ROOT);
    }

    /** Its row in the table of the page: planted, dated, found, named. */
    String row() {
      List<JsonNode> signals = signals();
      JsonNode last = signals.get(signals.size() - 1);
      return "| %s | %s | %s | %s | %s |"
          .formatted(
              label(),
              DATE.format(DAYS.date(fault.first())),
              DATE.format(DAYS.date(day(last.get("startedAt").asText()))),
              DATE.format(DAYS.date(fault.found())),
              attribution(last).get("cause").asText());
    }
  }

  private static int day(String at) {
    return (int) Duration.between(DAYS.at(0, 0), Instant.parse(at)).toDays();
  }

  @ParameterizedTest
  @EnumSource(Seen.class)
  void isFoundDatedAndNamed(Seen seen) {
    List<JsonNode> signals = seen.signals();
    assertThat(signals).isNotEmpty();
    JsonNode signal = signals.get(signals.size() - 1);
    assertThat(day(signal.get("startedAt").asText()))
        .as(signal.get("text").asText())
        .isBetween(seen.fault.first() - NEAR, seen.fault.first() + NEAR);
    assertThat(signal.get("state").asText()).isEqualTo("explained");
    JsonNode attribution = attribution(signal);
    assertThat(attribution.get("cause").asText())
        .as(attribution.get("reason").asText())
        .isEqualTo(seen.cause);
  }

  /** From what was known a fortnight before the bed was found used up; the truth is the tower's. */
  @Test
  void theEndOfTheTowerIsForeseenThoughItLeaks() throws IOException {
    int known = Fault.TOWER.found() - 14;
    String polished = "/lines/potassium/streams/polished";
    double limit = json(200, get(polished)).at("/specification/upper").asDouble();
    Map<String, Double> inlets = new HashMap<>();
    resultsUntil(known, "/lines/potassium/streams/washed")
        .forEach(each -> inlets.put(each.get("batch").asText(), value(each)));
    List<Breakthrough.Reading> readings = new ArrayList<>();
    for (JsonNode each : resultsUntil(known, polished)) {
      JsonNode entered = json(200, get("/results/" + each.get("id").asText()));
      double passed = entered.at("/throughput/bedVolumes").asDouble();
      Double inlet = inlets.get(each.get("batch").asText());
      readings.add(new Breakthrough.Reading(passed, value(each), inlet));
    }

    Forecast forecast =
        Breakthrough.of(
            new Breakthrough.Tower(
                org.sapotrace.washmodel.Throughput.BED_VOLUMES, limit, 1.5, 0.88),
            readings);

    assertThat(forecast).isInstanceOf(Forecast.Expected.class);
    Forecast.Expected expected = (Forecast.Expected) forecast;
    assertThat(expected.model()).contains("leak");
    Forecast.Remaining left = expected.remaining();
    double inlet = inlets.values().stream().mapToDouble(each -> each).average().orElseThrow();
    assertThat(leftUntil(limit / inlet, known)).isBetween(left.lower(), left.upper());
    assertThat(Files.readString(PAGE).replaceAll("\\s+", " "))
        .contains(
            "%.0f bed volumes more, 95 %%: %.0f to %.0f"
                .formatted(left.value(), left.lower(), left.upper()));
  }

  /**
   * Bed volumes from the last batch known until the tower lets so much through, between batches.
   */
  private static double leftUntil(double fraction, int known) {
    Tower tower = Product.POTASSIUM.tower();
    int day = known;
    while (tower.letThrough(day) < fraction) {
      day++;
    }
    double batch = bedVolumes(tower, day) - bedVolumes(tower, day - 1);
    double part =
        (fraction - tower.letThrough(day - 1))
            / (tower.letThrough(day) - tower.letThrough(day - 1));
    return bedVolumes(tower, day - 1) + part * batch - bedVolumes(tower, known - 1);
  }

  private static double bedVolumes(Tower tower, int day) {
    return Objects.requireNonNull(tower.throughput(day).bedVolumes());
  }

  private static double value(JsonNode result) {
    return result.at("/result/value").asDouble();
  }

  private static List<JsonNode> resultsUntil(int day, String stream) {
    JsonNode results =
        json(200, get("%s/results?limit=1000&to=%s".formatted(stream, DAYS.at(day, 0))));
    return StreamSupport.stream(results.get("items").spliterator(), false).toList();
  }

  private static JsonNode attribution(JsonNode signal) {
    return json(200, get("/signals/%s/attribution".formatted(signal.get("id").asText())));
  }

  @Test
  void theOneWhoReadsHighStandsOutAmongTheAnalysts() {
    JsonNode precision = json(200, get("/lines/sodium/streams/check/precision"));
    JsonNode grubbs = precision.at("/reproducibility/grubbs");
    assertThat(grubbs.get("analyst").asText()).isEqualTo(Analysts.NEW);
    assertThat(grubbs.get("finding").asText()).isNotEqualTo("correct");
    assertThat(precision.at("/cautions").toString()).contains("tw stands out on batch comparison");
  }

  @Test
  void slipsArePutRight() {
    JsonNode lapsed = json(200, get("/signals?state=lapsed&limit=1000")).get("items");
    assertThat(lapsed.findValuesAsText("reason").toString())
        .contains("the burette was misread")
        .contains("sample bottle had not been rinsed");
  }

  @Test
  void limitsAreEstimatedOnceMoreAsPlanned() {
    JsonNode limits = json(200, get("/lines/sodium/streams/crude/limits")).get("items");
    assertThat(limits.findValuesAsText("origin")).contains("planned");
    assertThat(limits.findValuesAsText("n")).contains("45", "70");
  }

  @Test
  void isThereOnceForAll() {
    assertThat(plant.state()).isEqualTo(DemonstrationPlant.State.SOMETHING);
  }

  /** What the page quotes of the service is what the service says. */
  @Test
  void thePageSaysWhatTheServiceSays() throws IOException {
    String page = Files.readString(PAGE).replaceAll("\\s*\n> ?", " ").replaceAll("\\s+", " ");
    Files.createDirectories(PICTURES);
    List<String> said = new ArrayList<>();
    for (Seen seen : Seen.values()) {
      Files.write(
          PICTURES.resolve(seen.picture()),
          get(seen.chart("png") + "&width=1200&height=560").asByteArray());
      String summary = json(200, get(seen.chart("json"))).get("summary").asText();
      said.add(seen.row());
      said.add("![%s](demonstration/%s)".formatted(summary, seen.picture()));
      if (!seen.cause.equals("undecided")) {
        List<JsonNode> signals = seen.signals();
        said.add(attribution(signals.get(signals.size() - 1)).get("reason").asText());
      }
    }
    Files.write(Files.createDirectories(TOLD).resolve("said.txt"), said);
    assertThat(said).allSatisfy(sentence -> assertThat(page).contains(sentence));
  }
}
