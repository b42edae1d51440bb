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
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.sapotrace.testing.PostgresResource;

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

  /** On the evening of this day all that was titrated is on record. */
  private static final int KNOWN = Fault.WASH.found();

  private static final String TOWER = "/lines/potassium/streams/polished";

  private static boolean isFilled;

  /** What the service foresaw of the tower on that evening. */
  private static JsonNode foreseen;

  @Inject DemonstrationPlant plant;

  @BeforeEach
  void fill() {
    if (!isFilled) {
      assertThat(plant.state()).isEqualTo(DemonstrationPlant.State.NOTHING_AT_ALL);
      plant.fill(LAST, PlantedFaultsTest::ask);
      isFilled = true;
    }
  }

  private static void ask(int daysOver) {
    if (daysOver == KNOWN + 1) {
      foreseen = json(200, get(TOWER + "/forecast"));
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

  /**
   * What the service says 17 days before the bed is found used up, when it has only the results
   * until then; the truth is the tower's.
   */
  @Test
  void theEndOfTheTowerIsForeseenThoughItLeaks() throws IOException {
    assertThat(Fault.TOWER.found() - KNOWN).isEqualTo(17);
    assertThat(foreseen.get("status").asText()).isEqualTo("forecast");
    assertThat(foreseen.get("model").asText()).contains("leak");
    assertThat(foreseen.get("reason").asText()).doesNotContain("Left out", "Not paired");
    JsonNode left = foreseen.get("remaining");
    double inlet =
        resultsUntil(KNOWN + 1, "/lines/potassium/streams/washed").stream()
            .mapToDouble(each -> each.at("/result/value").asDouble())
            .average()
            .orElseThrow();
    double truth =
        throughputAt(left.get("limit").asDouble() / inlet)
            - bedVolumes(Product.POTASSIUM.tower(), KNOWN);
    assertThat(truth).isBetween(left.get("lower").asDouble(), left.get("upper").asDouble());
    assertThat(Files.readString(PAGE).replaceAll("\\s+", " "))
        .contains(
            "%.0f bed volumes more, 95 %%: %.0f to %.0f"
                .formatted(
                    left.get("value").asDouble(),
                    left.get("lower").asDouble(),
                    left.get("upper").asDouble()));
  }

  /** Bed volumes until the tower lets so much through, between batches. */
  private static double throughputAt(double fraction) {
    Tower tower = Product.POTASSIUM.tower();
    int day = 0;
    while (tower.letThrough(day) < fraction) {
      day++;
    }
    double part =
        (fraction - tower.letThrough(day - 1))
            / (tower.letThrough(day) - tower.letThrough(day - 1));
    return bedVolumes(tower, day - 1)
        + part * (bedVolumes(tower, day) - bedVolumes(tower, day - 1));
  }

  /** First it is flushed until it is clean, and then its bed is new. */
  @Test
  void theTowerIsFlushedBeforeItIsPackedAnew() {
    JsonNode flush = json(200, get("/lines/potassium/streams/flush/results?limit=100"));
    JsonNode events = json(200, get("/lines/potassium/events?limit=100"));
    List<Instant> samples = times(flush.get("items"), "sampledAt");
    List<Instant> begun = times(ofKind(events, "maintenance"), "at");
    List<Instant> packed = times(ofKind(events, "media-change"), "at");

    assertThat(samples).hasSize(12).allMatch(at -> at.isAfter(begun.get(0)));
    assertThat(packed).hasSize(2);
    assertThat(samples).allMatch(at -> at.isBefore(packed.get(1)));
    assertThat(json(200, get(TOWER + "/forecast")).get("reason").asText())
        .contains("since it was new on " + DAYS.date(Fault.TOWER.found() + 1))
        .doesNotContain("flushed");
  }

  private static List<JsonNode> ofKind(JsonNode events, String kind) {
    return StreamSupport.stream(events.get("items").spliterator(), false)
        .filter(event -> event.get("kind").asText().equals(kind))
        .toList();
  }

  private static List<Instant> times(Iterable<JsonNode> all, String field) {
    return StreamSupport.stream(all.spliterator(), false)
        .map(each -> Instant.parse(each.get(field).asText()))
        .sorted()
        .toList();
  }

  /** A titrant moves no removal, and by less than fuel spreads; a wash moves no tower. */
  @Test
  void findingsStandOnlyAtSignalsOfWhatTheFaultMoves() {
    JsonNode explained = json(200, get("/signals?state=explained&limit=1000")).get("items");
    Set<String> titrant = new TreeSet<>();
    Set<String> wash = new TreeSet<>();
    for (JsonNode signal : explained) {
      String cause = signal.at("/finding/cause").asText();
      if (cause.startsWith("Bottle")) {
        titrant.add(signal.get("stream").asText());
      } else if (cause.startsWith("Spray")) {
        wash.add(signal.get("stream").asText());
      }
    }

    assertThat(titrant).containsExactly("check");
    assertThat(wash)
        .contains("washed", "washed-removal")
        .isSubsetOf("washed", "washed-removal", "polished", "stored");
  }

  private static double bedVolumes(Tower tower, int day) {
    return Objects.requireNonNull(tower.throughput(day).bedVolumes());
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
