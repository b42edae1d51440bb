package org.sapotrace.attribution;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.sapotrace.attribution.Attribution.Part;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.attribution.Evidence.Place;

/**
 * Plants whose truth is known: what is reported follows y = (V - V0) c M 1000 / m with a true
 * normality c e^(-r) and a true blank V0 + b, computed here without the linear model.
 */
class AttributionTest {

  private static final int QUIET = 20;
  private static final int MOVED = 12;
  // c M 1000 for 0.01 mol/L and sodium oleate of 304.45 g/mol, over 10 g, 100 g and 50 g.
  private static final double K = 0.01 * 304.45 * 1000;
  private static final double CRUDE_EFFECT = K / (10 * 1200);
  private static final double WASHED_EFFECT = K / (100 * 40);
  private static final double CHECK_EFFECT = K / (50 * 100);

  /** By how much each moves at the i-th result, counting from 0. */
  private record Truth(
      IntToDoubleFunction titrant,
      IntToDoubleFunction blankMl,
      IntToDoubleFunction feed,
      IntToDoubleFunction wash) {

    static final IntToDoubleFunction STILL = i -> 0;

    double crude(int i) {
      return Math.log(reported(1200 * Math.exp(feed.applyAsDouble(i)), 10, i));
    }

    double washed(int i) {
      double move = feed.applyAsDouble(i) + wash.applyAsDouble(i);
      return Math.log(reported(40 * Math.exp(move), 100, i));
    }

    private double reported(double soap, double sampleG, int i) {
      return soap * Math.exp(titrant.applyAsDouble(i)) + K * blankMl.applyAsDouble(i) / sampleG;
    }

    Evidence crudes() {
      return series(Kind.CRUDE, "a", CRUDE_EFFECT, this::crude, 0.1);
    }

    Evidence washeds() {
      return series(Kind.WASHED, "a", WASHED_EFFECT, this::washed, 0.13);
    }

    Evidence removals() {
      return series(
          Kind.REMOVAL, "a", WASHED_EFFECT - CRUDE_EFFECT, i -> crude(i) - washed(i), 0.07);
    }

    Evidence checks() {
      return series(
          Kind.CHECK_STANDARD, "", CHECK_EFFECT, i -> Math.log(reported(100, 50, i)), 0.03);
    }

    Evidence blanks() {
      return series(Kind.BLANK, "", 0, blankMl, 0.01);
    }

    Evidence standardisations() {
      return series(Kind.STANDARDISATION, "", 0, i -> -titrant.applyAsDouble(i), 0.005);
    }

    List<Evidence> all() {
      return List.of(crudes(), removals(), checks(), blanks(), standardisations());
    }
  }

  private static Evidence series(
      Kind kind, String line, double effect, IntToDoubleFunction values, double sigma) {
    List<Evidence.Result> results = new ArrayList<>();
    for (int i = 0; i < QUIET + MOVED; i++) {
      // A scatter that adds up to nothing, so that estimates are exact.
      double scatter = (i % 2 == 0 ? 1 : -1) * sigma * 1e-3;
      results.add(new Evidence.Result(i, values.applyAsDouble(i) + scatter, titrants(kind)));
    }
    return new Evidence(kind, place(line), effect, results, sigma);
  }

  /** All is titrated with one lot. */
  private static Map<String, Integer> titrants(Kind kind) {
    return switch (kind) {
      case BLANK, REMOVAL -> Map.of();
      case STANDARDISATION, EARLIER_STANDARDISATION -> Evidence.Result.strengthOf("lot");
      default -> Evidence.Result.titratedWith("lot");
    };
  }

  private static Place place(String line) {
    return line.isEmpty() ? Place.NONE : new Place(line, "washed");
  }

  private static IntToDoubleFunction step(double size) {
    return i -> i < QUIET ? 0 : size;
  }

  private static IntToDoubleFunction ramp(double size) {
    return i -> i < QUIET ? 0 : size * (i - QUIET + 1) / MOVED;
  }

  private static Truth still(
      IntToDoubleFunction titrant,
      IntToDoubleFunction blank,
      IntToDoubleFunction feed,
      IntToDoubleFunction wash) {
    return new Truth(titrant, blank, feed, wash);
  }

  private static final IntToDoubleFunction STILL = Truth.STILL;

  private static Part part(Attribution attribution, Cause cause) {
    return attribution.parts().stream()
        .filter(part -> part.cause() == cause)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void namesTheTitrantWhereEverythingMovesByOneRatio() {
    Truth truth = still(step(0.15), STILL, STILL, STILL);
    Attribution found = Attribution.of(truth.crudes(), QUIET, truth.all(), 0.02);
    assertThat(found.cause()).isEqualTo(Cause.TITRANT);
    assertThat(found.change().shape()).isEqualTo(Change.Shape.STEP);
    assertThat(found.change().day()).isEqualTo(QUIET - 1.0);
    assertThat(found.shift()).isCloseTo(0.15, within(0.001));
    assertThat(part(found, Cause.TITRANT).estimate()).isCloseTo(0.15, within(0.005));
    assertThat(part(found, Cause.TITRANT).share()).isCloseTo(1, within(0.05));
    assertThat(found.wanted()).isNull();
  }

  /** Equal volumes, so unequal in mg/kg: 3.0 mg/kg on 100 g of washed fuel, 30 on 10 g of crude. */
  @Test
  void namesTheBlankWhereEverythingMovesByOneVolume() {
    Truth truth = still(STILL, step(0.5), STILL, STILL);
    Attribution found = Attribution.of(truth.washeds(), QUIET, truth.all(), 0.04);
    assertThat(found.cause()).isEqualTo(Cause.BLANK);
    assertThat(found.shift()).isCloseTo(Math.log(1 + 0.5 * K / 100 / 40), within(0.001));
    assertThat(part(found, Cause.BLANK).estimate()).isCloseTo(found.shift(), within(0.01));
  }

  @Test
  void namesTheWashWhereItsRemovalFallsAlone() {
    Truth truth = still(STILL, STILL, STILL, ramp(0.3));
    for (Evidence shifted : List.of(truth.washeds(), truth.removals())) {
      Attribution found = Attribution.of(shifted, QUIET, truth.all(), 0.04);
      assertThat(found.cause()).isEqualTo(Cause.WASH);
      assertThat(found.change().shape()).isEqualTo(Change.Shape.RAMP);
      assertThat(Math.abs(part(found, Cause.WASH).estimate())).isCloseTo(0.3, within(0.01));
    }
  }

  @Test
  void namesTheFeedWhereTheCrudeRisesAndTheRemovalStays() {
    Truth truth = still(STILL, STILL, step(0.25), STILL);
    Attribution found = Attribution.of(truth.washeds(), QUIET, truth.all(), 0.04);
    assertThat(found.cause()).isEqualTo(Cause.FEED);
    assertThat(part(found, Cause.FEED).estimate()).isCloseTo(0.25, within(0.01));
    assertThat(part(found, Cause.WASH).share()).isCloseTo(0, within(0.05));
  }

  @Test
  void isUndecidedWhereTwoMovedClearly() {
    Truth truth = still(step(0.12), STILL, STILL, step(0.3));
    Attribution found = Attribution.of(truth.washeds(), QUIET, truth.all(), 0.04);
    assertThat(found.cause()).isEqualTo(Cause.UNDECIDED);
    assertThat(part(found, Cause.WASH).estimate()).isCloseTo(0.3, within(0.02));
    assertThat(part(found, Cause.TITRANT).estimate()).isCloseTo(0.12, within(0.02));
  }

  /** Without the crude nobody knows whether it or the wash moved; before, it was titrated. */
  @Test
  void wantsTheCrudeWhereOnlyTheWashedFuelWasTitrated() {
    Truth truth = still(STILL, STILL, STILL, step(0.4));
    Attribution found =
        Attribution.of(
            truth.washeds(),
            QUIET,
            List.of(
                truth.washeds(),
                before(truth.crudes()),
                truth.checks(),
                truth.blanks(),
                truth.standardisations()),
            0.04);
    assertThat(found.cause()).isEqualTo(Cause.UNDECIDED);
    assertThat(found.wanted()).isEqualTo(new Wanted(Kind.CRUDE, "lot"));
    assertThat(part(found, Cause.WASH).standardError()).isGreaterThan(0.4);
  }

  /** A soapier feed and a weaker titrant look the same to the crude. */
  @Test
  void wantsTheTitrantKnownWhereItMayBeTheTitrant() {
    Truth truth = still(STILL, STILL, step(0.3), STILL);
    Attribution found =
        Attribution.of(
            truth.crudes(),
            QUIET,
            List.of(
                truth.crudes(), truth.removals(), truth.blanks(), before(truth.standardisations())),
            0.02);
    assertThat(found.cause()).isEqualTo(Cause.UNDECIDED);
    assertThat(found.wanted()).isEqualTo(new Wanted(Kind.STANDARDISATION, "lot"));
  }

  /** What nobody titrated before the change cannot tell by how much it moved. */
  @Test
  void wantsNothingThatWasNotTitratedBefore() {
    Truth truth = still(STILL, STILL, STILL, step(0.4));
    Attribution found =
        Attribution.of(truth.washeds(), QUIET, List.of(truth.washeds(), truth.checks()), 0.04);
    assertThat(found.cause()).isEqualTo(Cause.UNDECIDED);
    assertThat(found.wanted()).isNull();
  }

  /** The first result alone, which lies before anything moved. */
  private static Evidence before(Evidence all) {
    return new Evidence(
        all.kind(), all.place(), all.blankEffect(), all.results().subList(0, 1), all.sigma());
  }

  /** The same results, titrated with other lots. */
  private static Evidence titratedWith(Evidence all, IntFunction<Map<String, Integer>> titrants) {
    List<Evidence.Result> results = new ArrayList<>();
    for (Evidence.Result each : all.results()) {
      results.add(new Evidence.Result(each.day(), each.value(), titrants.apply((int) each.day())));
    }
    return new Evidence(all.kind(), all.place(), all.blankEffect(), results, all.sigma());
  }

  /** The washed fuel's lot weakens: it alone reads high, as if the wash had failed. */
  @Test
  void keepsTheLotsOfCrudeAndWashedFuelApart() {
    Truth still = still(STILL, STILL, STILL, STILL);
    Truth weak = still(step(0.2), STILL, STILL, STILL);
    Evidence removals =
        titratedWith(
            series(
                Kind.REMOVAL,
                "a",
                WASHED_EFFECT - CRUDE_EFFECT,
                i -> still.crude(i) - weak.washed(i),
                0.07),
            i ->
                Evidence.Result.ratio(
                    Evidence.Result.titratedWith("lot"), Evidence.Result.titratedWith("other")));
    Evidence washeds = titratedWith(weak.washeds(), i -> Evidence.Result.titratedWith("other"));
    Evidence checks = titratedWith(weak.checks(), i -> Evidence.Result.titratedWith("other"));
    Evidence other =
        titratedWith(weak.standardisations(), i -> Evidence.Result.strengthOf("other"));
    List<Evidence> all =
        List.of(still.crudes(), removals, checks, still.blanks(), still.standardisations(), other);
    for (Evidence shifted : List.of(washeds, removals)) {
      Attribution found = Attribution.of(shifted, QUIET, all, 0.04);
      assertThat(found.cause()).isEqualTo(Cause.TITRANT);
      assertThat(Math.abs(part(found, Cause.TITRANT).estimate())).isCloseTo(0.2, within(0.01));
      assertThat(part(found, Cause.WASH).share()).isCloseTo(0, within(0.05));
    }
    assertThat(Attribution.of(still.crudes(), QUIET, all, 0.04).cause())
        .isEqualTo(Cause.MEASUREMENT);
  }

  /**
   * A bottle that is a fifth too weak comes to the fuel at the change, where check standards were
   * titrated with it all along.
   */
  @Test
  void tellsALotThatIsNewFromOneThatMoved() {
    Truth still = still(STILL, STILL, STILL, STILL);
    Truth weak = still(step(0.2), STILL, STILL, STILL);
    Evidence crudes =
        titratedWith(weak.crudes(), i -> Evidence.Result.titratedWith(i < QUIET ? "lot" : "new"));
    Evidence checks = titratedWith(still.checks(), i -> Evidence.Result.titratedWith("new"));
    // Before, the old lot was found to be what it was taken for.
    Evidence before =
        titratedWith(
            series(Kind.EARLIER_STANDARDISATION, "", 0, STILL, 0.01),
            i ->
                i < QUIET ? Evidence.Result.strengthOf("lot") : Evidence.Result.rightBeside("lot"));
    List<Evidence> all = List.of(crudes, checks, still.blanks(), before);
    Attribution open = Attribution.of(crudes, QUIET, all, 0.02);
    assertThat(open.cause()).isEqualTo(Cause.UNDECIDED);

    Evidence standardised =
        titratedWith(
            weak.standardisations(), i -> i < QUIET ? Map.of() : Evidence.Result.strengthOf("new"));
    List<Evidence> more = new ArrayList<>(all);
    more.add(standardised);
    Attribution found = Attribution.of(crudes, QUIET, more, 0.02);
    assertThat(found.cause()).isEqualTo(Cause.TITRANT);
    assertThat(part(found, Cause.TITRANT).estimate()).isCloseTo(0.2, within(0.02));
  }

  /** Half of the check standards behind the change were titrated with a lot that is right. */
  @Test
  void countsATitrantAsFarAsItWasUsed() {
    Truth weak = still(step(0.2), STILL, STILL, STILL);
    Evidence checks =
        titratedWith(
            series(Kind.CHECK_STANDARD, "", 0, i -> i < QUIET || i % 2 == 0 ? 0 : 0.2, 0.03),
            i -> Evidence.Result.titratedWith(i % 2 == 0 ? "right" : "lot"));
    Evidence right =
        titratedWith(
            still(STILL, STILL, STILL, STILL).standardisations(),
            i -> Evidence.Result.strengthOf("right"));
    Attribution found =
        Attribution.of(
            weak.crudes(),
            QUIET,
            List.of(weak.crudes(), weak.removals(), checks, weak.blanks(), right),
            0.02);
    assertThat(part(found, Cause.TITRANT).estimate()).isCloseTo(0.2, within(0.02));
  }

  /** Three places of one other line share its feed, and are one witness. */
  @Test
  void takesPlacesOfOneLineForOneWitness() {
    Truth truth = still(step(0.2), STILL, STILL, STILL);
    List<Evidence> places = new ArrayList<>(List.of(truth.crudes(), truth.blanks()));
    List<Evidence> lines = new ArrayList<>(places);
    for (String name : List.of("b", "c", "d")) {
      Evidence other = series(Kind.CRUDE, name, CRUDE_EFFECT, truth::crude, 0.05);
      lines.add(other);
      places.add(
          new Evidence(
              Kind.CRUDE,
              new Place("other", name),
              other.blankEffect(),
              other.results(),
              other.sigma()));
    }
    assertThat(titrantError(places)).isGreaterThan(1.3 * titrantError(lines));
  }

  private static double titrantError(List<Evidence> all) {
    return part(Attribution.of(all.get(0), QUIET, all, 0.02), Cause.TITRANT).standardError();
  }

  /** What moves on three lines at once is more likely what they share. */
  @Test
  void takesWhatMovesOnAllLinesForWhatTheyShare() {
    Truth truth = still(step(0.2), STILL, STILL, STILL);
    List<Evidence> lonely = List.of(truth.crudes(), truth.removals());
    List<Evidence> common = new ArrayList<>(lonely);
    for (String line : List.of("b", "c", "d")) {
      common.add(series(Kind.CRUDE, line, CRUDE_EFFECT, truth::crude, 0.05));
    }
    Attribution alone = Attribution.of(truth.crudes(), QUIET, lonely, 0.02);
    Attribution together = Attribution.of(truth.crudes(), QUIET, common, 0.02);
    assertThat(part(together, Cause.TITRANT).share())
        .isGreaterThan(3 * part(alone, Cause.TITRANT).share());
    assertThat(part(together, Cause.TITRANT).standardError())
        .isLessThan(part(alone, Cause.TITRANT).standardError());
  }

  @Test
  void callsAShiftMeasurementThatMeasuringAloneMakes() {
    Truth truth = still(STILL, STILL, STILL, step(0.02));
    Attribution found = Attribution.of(truth.removals(), QUIET, truth.all(), 0.06);
    assertThat(found.cause()).isEqualTo(Cause.MEASUREMENT);
  }

  // By hand: two equations for D = f with variance v and a prior of variance 0.7² make f = D 0.49 /
  // (0.49 + 1.25 v), v = 0.1² (1/20 + 1/12); nothing else moves the crude where titrant and blank
  // are known.
  @Test
  void weighsTheEvidenceAgainstWhatIsThoughtBefore() {
    Truth truth = still(STILL, STILL, step(0.3), STILL);
    double v = 0.1 * 0.1 * (1 / 20.0 + 1 / 12.0);
    Attribution found = Attribution.of(truth.crudes(), QUIET, truth.all(), 0.02);
    assertThat(part(found, Cause.FEED).estimate())
        .isCloseTo(0.3 * 0.49 / (0.49 + 1.25 * v), within(2e-3));
    assertThat(part(found, Cause.FEED).standardError())
        .isCloseTo(Math.sqrt(1 / (1 / 0.49 + 1 / (1.25 * v))), within(2e-3));
  }

  /** Two batches of soapier crude before a titrant weakened look like the beginning of it. */
  private static Evidence crudesThatSeemToRiseSooner() {
    Truth truth = still(step(0.15), STILL, STILL, STILL);
    IntToDoubleFunction early = i -> i == QUIET - 2 || i == QUIET - 1 ? 0.12 : 0;
    return series(Kind.CRUDE, "a", CRUDE_EFFECT, i -> truth.crude(i) + early.applyAsDouble(i), 0.1);
  }

  @Test
  void datesATitrantByItsCheckStandardsAsWell() {
    Evidence crudes = crudesThatSeemToRiseSooner();
    Evidence checks = still(step(0.15), STILL, STILL, STILL).checks();
    Attribution alone = Attribution.of(crudes, 10, List.of(crudes), 0.02);
    Attribution beside = Attribution.of(crudes, 10, List.of(crudes, checks), 0.02);
    assertThat(alone.change().day()).isEqualTo(QUIET - 3.0);
    assertThat(beside.change().day()).isEqualTo(QUIET - 1.0);
  }

  @Test
  void leavesOtherLinesTheirOwnDates() {
    Evidence crudes = crudesThatSeemToRiseSooner();
    Evidence others = series(Kind.CRUDE, "b", CRUDE_EFFECT, i -> i < QUIET ? 0 : 0.5, 0.01);
    Attribution beside = Attribution.of(crudes, 10, List.of(crudes, others), 0.02);
    assertThat(beside.change().day()).isEqualTo(QUIET - 3.0);
  }

  /** However clear the check standards are: the stream itself must have moved then. */
  @Test
  void takesNoDayThatTheStreamItselfRulesOut() {
    Evidence crudes = still(STILL, STILL, step(0.3), STILL).crudes();
    Evidence checks = series(Kind.CHECK_STANDARD, "", CHECK_EFFECT, i -> i < 10 ? 0 : 0.2, 0.01);
    Attribution found = Attribution.of(crudes, 5, List.of(crudes, checks), 0.02);
    assertThat(found.change().day()).isEqualTo(QUIET - 1.0);
  }

  @Test
  void looksForAChangeBehindQuietResults() {
    Evidence crudes = still(STILL, STILL, STILL, STILL).crudes();
    assertThatThrownBy(() -> Attribution.of(crudes, QUIET + MOVED, List.of(crudes), 0.02))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void refusesEvidenceThatIsNone() {
    List<Evidence.Result> one = List.of(new Evidence.Result(0, 1, Map.of()));
    assertThatThrownBy(() -> new Evidence(Kind.CRUDE, place("a"), 0.2, List.of(), 0.1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Evidence(Kind.CRUDE, place("a"), 0.2, one, 0))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Evidence(Kind.CRUDE, place("a"), Double.NaN, one, 0.1))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
