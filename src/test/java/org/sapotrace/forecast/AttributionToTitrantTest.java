package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.forecast.Attributed.MOVED;
import static org.sapotrace.forecast.Attributed.QUIET;
import static org.sapotrace.forecast.Attributed.adopt;
import static org.sapotrace.forecast.Attributed.attribution;
import static org.sapotrace.forecast.Attributed.checked;
import static org.sapotrace.forecast.Attributed.partOf;
import static org.sapotrace.forecast.Attributed.signal;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/** Titrations with lots and blanks whose truth is known: what is theirs is told from the wash. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class AttributionToTitrantTest {

  // c M 1000 of 0.01 mol/L and sodium oleate, in mg/kg for each mL on each g.
  private static final double K = 0.01 * 304.45 * 1000;

  private static final String TITRATED =
      """
      {"batch": "K-%d", "sampledAt": "%s", "titrant": {"lot": "%s"}, "blankMl": %s,
       "glassware": "burette-25ml",
       "replicates": [{"titrantMl": %s, "sampleG": %s}]}
      """;

  private final SplittableRandom random = new SplittableRandom(4);

  /** A check standard that reads high like everything else, and a standardisation that says so. */
  @Test
  void isTheTitrantWhereEverythingMovesByOneRatio() {
    Wash wash = Wash.watched();
    checked(wash);
    String lot = declared(wash.line + "-hcl");
    for (int i = 0; i < QUIET + MOVED; i++) {
      double weaker = i < QUIET ? 1 : 1.2;
      titrate(wash, "crude", i, lot, 1200 * scatter(0.05) * weaker, 10);
      titrate(wash, "washed", i, lot, 40 * scatter(0.08) * weaker, 100);
      titrate(wash, "check", i, lot, 100 * scatter(0.02) * weaker, 50);
      if (i == QUIET - 1) {
        adopt(wash);
      }
    }
    // Check standards alone leave it to titrant or blank; the standardisation tells.
    JsonNode open = attribution(signal(wash, "crude"));
    assertThat(open.get("cause").asText()).isEqualTo("undecided");
    assertThat(open.get("wanted").isNull()).isFalse();
    standardise(lot, 0.01 / 1.2, 2 * (QUIET + MOVED));
    JsonNode answer = attribution(signal(wash, "crude"));
    assertThat(answer.get("cause").asText()).isEqualTo("titrant");
    assertThat(answer.at("/parts/0/estimate").asDouble()).isCloseTo(240, within(60.0));
  }

  /** A lot that lost strength, and was used for what it was found to be, is behind nothing. */
  @Test
  void takesAStandardisedLotForWhatItIsUsedAs() {
    Wash wash = Wash.watched();
    String lot = declared(wash.line + "-hcl");
    standardise(lot, 0.009, 2);
    for (int i = 1; i < QUIET + MOVED; i++) {
      double richer = i < QUIET ? 1 : 1.5;
      double crude = 1200 * scatter(0.05) * richer;
      // The weaker the titrant, the more of it is taken.
      titrate(wash, "crude", i, lot, crude / 0.9, 10);
      titrate(wash, "washed", i, lot, crude / 30 / 0.9 * scatter(0.05), 100);
      if (i == QUIET - 1) {
        adopt(wash, 29);
      }
    }
    standardise(lot, 0.009, 2 * (QUIET + MOVED));
    JsonNode answer = attribution(signal(wash, "crude"));
    assertThat(answer.at("/parts/0/cause").asText()).isEqualTo("feed");
    assertThat(Math.abs(partOf(answer, "titrant"))).isLessThan(40);
  }

  /** The washed fuel's own lot weakens, and the wash, which works as before, seems to fail. */
  @Test
  void tellsTheLotOfTheWashedFuelFromItsWash() {
    Wash wash = Wash.watched();
    String ofCrude = declared(wash.line + "-strong");
    String ofWashed = declared(wash.line + "-dilute");
    for (int i = 1; i < QUIET + MOVED; i++) {
      double crude = 1200 * scatter(0.05);
      titrate(wash, "crude", i, ofCrude, crude, 10);
      double weaker = i < QUIET ? 1 : 1.5;
      titrate(wash, "washed", i, ofWashed, crude / 30 * scatter(0.05) * weaker, 100);
      if (i == QUIET - 1) {
        adopt(wash, 29);
      }
    }
    // By these batches alone it may be the wash as well.
    JsonNode open = attribution(signal(wash, "washed-removal"));
    assertThat(open.get("cause").asText()).as(open.toPrettyString()).isEqualTo("undecided");
    assertThat(open.get("wanted").asText())
        .isEqualTo("Standardise titrant lot %s, three replicates.".formatted(ofWashed));
    standardise(ofCrude, 0.01, 2 * (QUIET + MOVED));
    standardise(ofWashed, 0.01 / 1.5, 2 * (QUIET + MOVED));
    for (String stream : List.of("washed-removal", "washed")) {
      JsonNode answer = attribution(signal(wash, stream));
      assertThat(answer.get("cause").asText()).as(answer.toPrettyString()).isEqualTo("titrant");
    }
  }

  /** Streams of other lines that have no inlet share lot and solvent. */
  @Test
  void takesWhatMovesElsewhereOnTheLotForWhatTheyShare() {
    assertThat(shareOfTitrantAndBlank(1.3)).isGreaterThan(0.8);
    assertThat(shareOfTitrantAndBlank(1)).isLessThan(0.2);
  }

  private double shareOfTitrantAndBlank(double othersMove) {
    Wash wash = Wash.unwatched();
    List<Wash> others = List.of(Wash.unwatched(), Wash.unwatched());
    String lot = declared(wash.line + "-hcl");
    for (int i = 1; i < QUIET + MOVED; i++) {
      double higher = i < QUIET ? 1 : 1.3;
      titrate(wash, "washed", i, lot, 40 * scatter(0.08) * higher, 100);
      for (Wash other : others) {
        double moved = i < QUIET ? 1 : othersMove;
        titrate(other, "washed", i, lot, 50 * scatter(0.08) * moved, 100);
      }
      if (i == QUIET - 1) {
        json(201, post(wash.path + "washed/limits", "{\"baseline\": {\"first\": 29}}"));
      }
    }
    JsonNode answer = attribution(signal(wash, "washed"));
    double shared = partOf(answer, "titrant") + partOf(answer, "blank");
    return shared / answer.get("shift").asDouble();
  }

  /** A blank that shifts, and is taken off, is behind nothing. */
  @Test
  void takesABlankThatIsTakenOffForNoCause() {
    Wash wash = Wash.watched();
    checked(wash);
    json(
        201,
        put(
            wash.path + "blank",
            "{\"name\": \"Blank\", \"samplingPoint\": \"blank\", \"measurand\": \"other\", \"unit\": \"mL\"}"));
    String lot = declared(wash.line + "-hcl");
    for (int i = 1; i < QUIET + MOVED; i++) {
      double blank = i < QUIET ? 0.1 : 0.6;
      double crude = 1200 * scatter(0.05);
      double kept = i < QUIET ? 1 : 1.5;
      wash.record("blank", "K-" + i, 2 * i, blank + 0.01 * random.nextGaussian());
      titrate(wash, "crude", i, lot, crude, 10, blank);
      titrate(wash, "washed", i, lot, crude / 30 * kept * scatter(0.05), 100, blank);
      if (i == QUIET - 1) {
        adopt(wash, 29);
      }
    }
    JsonNode answer = attribution(signal(wash, "washed"));
    assertThat(answer.get("cause").asText()).as(answer.toPrettyString()).isEqualTo("wash");
    assertThat(partOf(answer, "blank")).isCloseTo(0, within(2.0));
  }

  private static void titrate(
      Wash wash, String stream, int i, String lot, double soap, double sampleG) {
    titrate(wash, stream, i, lot, soap, sampleG, 0);
  }

  /** A titration that takes off a blank which was there. */
  private static void titrate(
      Wash wash, String stream, int i, String lot, double soap, double sampleG, double blankMl) {
    json(
        201,
        post(
            wash.path + stream + "/titrations",
            String.format(
                Locale.ROOT,
                TITRATED,
                i,
                Wash.at(2 * i + (stream.equals("crude") ? 0 : 1)),
                lot,
                blankMl,
                blankMl + soap * sampleG / K,
                sampleG)));
  }

  private static String declared(String lot) {
    json(
        201,
        put(
            "/titrants/" + lot,
            "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01}"));
    standardise(lot, 0.01, 0);
    return lot;
  }

  // c = 1000 m / (E V) with 10 mL of 0.53 g in 1000 mL and E = 52.994 g/mol.
  private static void standardise(String lot, double normality, int hour) {
    json(
        201,
        post(
            "/titrants/" + lot + "/standardisations",
            """
            {"standard": "sodium-carbonate", "performedAt": "%s",
             "replicates": [{"solution": {"standardG": 0.53, "volumeMl": 1000}, "aliquotMl": 10,
                             "titrantMl": %s}]}
            """
                .formatted(Wash.at(hour).minusSeconds(60), 1000 * 0.0053 / (52.994 * normality))));
  }

  private double scatter(double relative) {
    return Math.exp(relative * random.nextGaussian());
  }
}
