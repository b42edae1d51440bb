package org.sapotrace.washmodel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.washmodel.Forecasts.coverage;
import static org.sapotrace.washmodel.Forecasts.expected;
import static org.sapotrace.washmodel.Forecasts.parameter;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.hipparchus.analysis.integration.RombergIntegrator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.ChemistryReference;
import org.sapotrace.washmodel.Breakthrough.Reading;
import org.sapotrace.washmodel.Breakthrough.Tower;

class BreakthroughTest {

  private static final double LIMIT = 66.2;
  private static final double INLET = 1200;
  private static final Tower TOWER = new Tower(Throughput.BED_VOLUMES, LIMIT, 1.6, 0.88);

  /** An invented tower: half of the soap comes through after 550 bed volumes. */
  private static final double TAU = 550;

  private static final double RATE = 0.02;

  private static final double LEAK = 0.02;

  /** Where it reaches the limit. */
  private static final double REACHED = TAU - Math.log(INLET / LIMIT - 1) / RATE;

  /**
   * The equations as their authors write them, for columns with q0 m / Q = 30 mg min/mL, which is
   * 300 to 400 min for half of it: they are one curve, and k of Yoon and Nelson is that of Thomas
   * times C_0, in a published table to within its 3 %.
   */
  @Test
  void isTheCurveOfThomasAndOfBohartAndAdamsAndOfYoonAndNelson() {
    JsonNode identity = ChemistryReference.entry("breakthroughIdentity");
    for (JsonNode row : identity.get("rows")) {
      double thomas = row.get("k_Th").asDouble();
      double c0 = row.get("C0MgPerMl").asDouble();
      double yoonNelson = row.get("k_YN").asDouble();
      double load = 30;
      double half = load / c0;
      List<DoubleUnaryOperator> curves =
          List.of(
              t -> 1 / (1 + Math.exp(thomas * load - thomas * c0 * t)),
              t -> {
                double up = Math.exp(thomas * c0 * t);
                return up / (up + Math.exp(thomas * load));
              });
      for (DoubleUnaryOperator curve : curves) {
        Forecast forecast = along(curve, half);
        assertThat(parameter("k", forecast).value()).isCloseTo(thomas * c0, within(1e-8));
        assertThat(parameter("k", forecast).value() / yoonNelson).isCloseTo(1, within(0.03));
        assertThat(parameter("tau", forecast).value()).isCloseTo(half, within(1e-5));
      }
      Forecast other = along(t -> 1 / (1 + Math.exp(yoonNelson * (half - t))), half);
      assertThat(parameter("k", other).value()).isCloseTo(yoonNelson, within(1e-8));
    }
  }

  private static Forecast along(DoubleUnaryOperator curve, double half) {
    return Breakthrough.of(
        TOWER,
        DoubleStream.iterate(half - 80, t -> t <= half + 80, t -> t + 20)
            .mapToObj(t -> new Reading(t, INLET * curve.applyAsDouble(t), INLET))
            .toList());
  }

  /** Soap taken up: by a Romberg integral of C_0 rho (1 - C/C_0); capacity: C_0 rho tau. */
  @Test
  void addsUpTheSoapTakenUp() {
    Forecast forecast = Breakthrough.of(TOWER, exact(100, 400));
    double integral =
        new RombergIntegrator().integrate(10_000, v -> 1 - fraction(v), 0, 400) * 1.2 * 0.88;

    assertThat(parameter("soap taken up", forecast).value()).isCloseTo(integral, within(1e-4));
    assertThat(parameter("soap taken up", forecast).unit()).isEqualTo("g/L");
    assertThat(parameter("capacity", forecast).value()).isCloseTo(1.2 * 0.88 * TAU, within(1e-4));
  }

  /** From results at a tenth to a third of the limit, where a straight line sees nothing yet. */
  @Test
  void foreseesTheBreakthroughLongBefore() {
    Forecast forecast = Breakthrough.of(TOWER, readings(0.05, 200, 340, new SplittableRandom(1)));
    Forecast.Remaining left = expected(forecast).remaining();

    assertThat(left.value()).isCloseTo(REACHED - 340, within(25.0));
    assertThat(left.lower()).isGreaterThan(20);
    assertThat(left.upper()).isLessThan(200);
    assertThat(left.upper() - left.value()).isGreaterThan(left.value() - left.lower());
    assertThat(left.unit()).isEqualTo("bed volumes");
    assertThat(forecast.reason()).contains("before the tower", "bed volumes more");
  }

  /** Scatter by a part of the level, in readings up to some throughput. */
  @ParameterizedTest
  @CsvSource({"0.1, 200, 320", "0.1, 200, 360", "0.2, 200, 340"})
  void coversTheTruthAsOftenAsItSays(double relative, double from, double to) {
    double coverage =
        coverage(
            400,
            REACHED - to,
            random -> Breakthrough.of(TOWER, readings(relative, from, to, random)));

    assertThat(coverage).isBetween(0.90, 0.99);
  }

  /** A tower past whose bed 2 % leaks from its first day: b + (1 - b)/(1 + exp(k (tau - V))). */
  @Test
  void findsTheLeakOfATowerThatNeverHeldAll() {
    Forecast forecast = Breakthrough.of(TOWER, leaking(0.05, 340, new SplittableRandom(1)));

    assertThat(parameter("leak", forecast).value()).isCloseTo(LEAK, within(0.005));
    assertThat(expected(forecast).model()).contains("leak");
    // Solved for V by hand: the fraction L/C_0 is reached where the bed lets (L/C_0 - b)/(1 - b)
    // by.
    double held = (LIMIT / INLET - LEAK) / (1 - LEAK);
    assertThat(expected(forecast).remaining().value())
        .isCloseTo(TAU + Math.log(held / (1 - held)) / RATE - 340, within(60.0));
  }

  @ParameterizedTest
  @CsvSource({"0.05, 320", "0.1, 340", "0.13, 360"})
  void coversTheTruthOfALeakingTowerToo(double relative, double to) {
    double held = (LIMIT / INLET - LEAK) / (1 - LEAK);
    double left = TAU + Math.log(held / (1 - held)) / RATE - to;
    double coverage =
        coverage(400, left, random -> Breakthrough.of(TOWER, leaking(relative, to, random)));

    assertThat(coverage).isBetween(0.90, 0.99);
  }

  /** Whatever is not known of the latest reading, it tells how far the tower is. */
  @Test
  void countsWhatIsLeftFromTheLatestReading() {
    List<Reading> readings = new ArrayList<>(exact(200, 340));
    readings.add(new Reading(360, 25, null));

    assertThat(expected(Breakthrough.of(TOWER, readings)).remaining().value())
        .isCloseTo(REACHED - 360, within(1e-3));
  }

  /** Where more soap comes than came, less is left: tau - ln(C_0/L - 1)/k with that C_0. */
  @Test
  void looksAtTheSoapThatIsToCome() {
    Tower fed = new Tower(Throughput.BED_VOLUMES, LIMIT, 1.6, 0.88, 2 * INLET);
    Forecast forecast = Breakthrough.of(fed, exact(200, 340));

    assertThat(expected(forecast).remaining().value())
        .isCloseTo(TAU - Math.log(2 * INLET / LIMIT - 1) / RATE - 340, within(1e-3));
    assertThat(parameter("capacity", forecast).value()).isCloseTo(1.2 * 0.88 * TAU, within(1e-4));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Tower(Throughput.BED_VOLUMES, LIMIT, 1.6, 0.88, 0.0))
        .withMessageContaining("above 0");
  }

  /**
   * A second tower, before which the soap rises from 140 to 920 mg/kg as the first one fills: where
   * it lets through too much with the mean of what came in the latest three batches.
   */
  @ParameterizedTest
  @CsvSource({"0.05, 340", "0.1, 360", "0.15, 360"})
  void coversTheTruthOfATowerBehindAnotherToo(double relative, double to) {
    DoubleUnaryOperator before = v -> INLET / (1 + Math.exp(RATE * (300 - v)));
    double feed =
        (before.applyAsDouble(to) + before.applyAsDouble(to - 20) + before.applyAsDouble(to - 40))
            / 3;
    Tower lag = new Tower(Throughput.BED_VOLUMES, LIMIT, 1.6, 0.88, feed);
    double coverage =
        coverage(
            400,
            TAU - Math.log(feed / LIMIT - 1) / RATE - to,
            random ->
                Breakthrough.of(
                    lag,
                    DoubleStream.iterate(200, v -> v <= to, v -> v + 20)
                        .mapToObj(
                            v ->
                                new Reading(
                                    v,
                                    before.applyAsDouble(v)
                                            * fraction(v)
                                            * random.nextGaussian(1, relative)
                                        + random.nextGaussian(0, 0.5),
                                    before.applyAsDouble(v)))
                        .toList()));

    assertThat(coverage).isBetween(0.90, 0.99);
  }

  @Test
  void saysThatTheLimitIsReached() {
    Forecast forecast = Breakthrough.of(TOWER, readings(0.05, 200, 500, new SplittableRandom(2)));

    assertThat(expected(forecast).remaining())
        .isEqualTo(new Forecast.Remaining("throughput", 0, 0, 0, "bed volumes", LIMIT));
    assertThat(forecast.reason()).contains("come through already");
  }

  @Test
  void seesNoBreakthroughInALevelTail() {
    List<Reading> level =
        List.of(
            new Reading(10, 20, INLET),
            new Reading(20, 22, INLET),
            new Reading(30, 19, INLET),
            new Reading(40, 21, INLET),
            new Reading(50, 20, INLET));
    List<Reading> falling =
        level.stream()
            .map(each -> new Reading(each.throughput(), 60 - each.throughput(), INLET))
            .toList();

    assertThat(Breakthrough.of(TOWER, level)).isInstanceOf(Forecast.NoTrend.class);
    assertThat(parameter("k", Breakthrough.of(TOWER, falling)).value()).isNegative();
  }

  /**
   * A bed that is spent, or that leaks more than allowed: what comes through stays, and is there.
   */
  @ParameterizedTest
  @CsvSource({"1200", "1150", "80"})
  void seesThatALevelAboveTheLimitIsPastIt(double level) {
    double[] scatter = {0.01, -0.01, 0.02, -0.015, 0.005, -0.01};
    List<Reading> readings =
        IntStream.range(0, scatter.length)
            .mapToObj(i -> new Reading(10 * i + 600, level * (1 + scatter[i]), INLET))
            .toList();
    Forecast forecast = Breakthrough.of(TOWER, readings);

    assertThat(expected(forecast).remaining())
        .isEqualTo(new Forecast.Remaining("throughput", 0, 0, 0, "bed volumes", LIMIT));
    assertThat(forecast.reason()).startsWith("66.2 mg/kg come through already");
  }

  /** One result within the limit does not hide that the others are about 80 mg/kg. */
  @Test
  void looksAtTheLevelWhereNotAllOfTheLatestLieAbove() {
    List<Reading> readings = new ArrayList<>();
    double[] outlets = {80, 90, 75, 85, 78, 88, 64};
    for (int i = 0; i < outlets.length; i++) {
      readings.add(new Reading(10 * i, outlets[i], INLET));
    }

    assertThat(expected(Breakthrough.of(TOWER, readings)).remaining().value()).isZero();
    assertThat(Breakthrough.of(TOWER, readings).reason()).contains("does not rise for certain");
  }

  /** Nobody knows the soap before this tower, so that there is no curve. */
  @Test
  void needsNoCurveToSeeThatTheLatestLieAbove() {
    List<Reading> readings =
        List.of(new Reading(10, 80, null), new Reading(20, 82, null), new Reading(30, 79, null));

    assertThat(expected(Breakthrough.of(TOWER, readings)).remaining().value()).isZero();
    assertThat(Breakthrough.of(TOWER, readings.subList(0, 2)))
        .isInstanceOf(Forecast.Insufficient.class);
  }

  @Test
  void needsNoTowerForSoapWithinTheLimit() {
    List<Reading> weak =
        exact(400, 600).stream()
            .map(each -> new Reading(each.throughput(), each.outlet() / 20, INLET / 20))
            .toList();

    assertThat(Breakthrough.of(TOWER, weak))
        .isInstanceOfSatisfying(
            Forecast.NoTrend.class, none -> assertThat(none.reason()).contains("60 mg/kg"));
  }

  @Test
  void namesWhatIsMissing() {
    List<Reading> known = exact(240, 340);
    List<Reading> unknown =
        known.stream().map(each -> new Reading(each.throughput(), each.outlet(), null)).toList();

    assertThat(Breakthrough.of(TOWER, known.subList(0, 3)).reason())
        .contains("at 4 different throughputs", "There are 3, and 3 of them");
    assertThat(Breakthrough.of(TOWER, unknown))
        .isInstanceOfSatisfying(
            Forecast.Insufficient.class,
            missing -> assertThat(missing.reason()).contains("There are 6, and 0 of them"));
  }

  @Test
  void saysThatTheThroughputGoesBack() {
    List<Reading> readings = new ArrayList<>(exact(200, 400));
    readings.addAll(exact(20, 60));

    assertThat(Breakthrough.of(TOWER, readings))
        .isInstanceOfSatisfying(
            Forecast.Insufficient.class,
            missing ->
                assertThat(missing.reason()).contains("goes back from 400 to 20 bed volumes"));
  }

  /**
   * Ninety results below detection, far ahead of the breakthrough must not make the curve look
   * sure.
   */
  @Test
  void isNoSurerForEarlyResultsThatSayNothing() {
    List<Reading> late = readings(0.1, 260, 340, new SplittableRandom(5));
    List<Reading> all = new ArrayList<>();
    for (int v = 0; v < 180; v += 2) {
      all.add(new Reading(v, INLET * fraction(v), INLET));
    }
    all.addAll(late);
    Forecast.Remaining few = expected(Breakthrough.of(TOWER, late)).remaining();
    Forecast.Remaining many = expected(Breakthrough.of(TOWER, all)).remaining();

    assertThat(many.upper() - many.lower()).isGreaterThan((few.upper() - few.lower()) / 3);
  }

  @Test
  void refusesWhatCannotBe() {
    assertThatIllegalArgumentException().isThrownBy(() -> new Reading(-1, 3, INLET));
    assertThatIllegalArgumentException().isThrownBy(() -> new Reading(1, Double.NaN, INLET));
    assertThatIllegalArgumentException().isThrownBy(() -> new Reading(1, 3, 0.0));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Tower(Throughput.LITRES, LIMIT, 0, 0.88));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Tower(Throughput.LITRES, Double.NaN, 1.6, 0.88));
  }

  private static double fraction(double throughput) {
    return 1 / (1 + Math.exp(RATE * (TAU - throughput)));
  }

  private static List<Reading> leaking(double relative, double to, SplittableRandom random) {
    return DoubleStream.iterate(20, v -> v <= to, v -> v + 20)
        .mapToObj(
            v -> {
              double inlet = INLET * Math.exp(random.nextGaussian(0, 0.1));
              double outlet =
                  inlet * (LEAK + (1 - LEAK) * fraction(v)) * random.nextGaussian(1, relative);
              return new Reading(v, outlet + random.nextGaussian(0, 0.5), inlet);
            })
        .toList();
  }

  private static List<Reading> exact(double from, double to) {
    return DoubleStream.iterate(from, v -> v <= to, v -> v + 20)
        .mapToObj(v -> new Reading(v, INLET * fraction(v), INLET))
        .toList();
  }

  /**
   * Every 20 bed volumes: the inlet scatters by 10 %, the outlet by some part of it and 0.5 mg/kg.
   */
  private static List<Reading> readings(
      double relative, double from, double to, SplittableRandom random) {
    return DoubleStream.iterate(from, v -> v <= to, v -> v + 20)
        .mapToObj(
            v -> {
              double inlet = INLET * Math.exp(random.nextGaussian(0, 0.1));
              double outlet =
                  inlet * fraction(v) * random.nextGaussian(1, relative)
                      + random.nextGaussian(0, 0.5);
              return new Reading(v, outlet, inlet);
            })
        .toList();
  }
}
