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
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.ChemistryReference;
import org.sapotrace.washmodel.Flush.Aim;
import org.sapotrace.washmodel.Flush.Reading;

class FlushTest {

  private static final Aim AIM = new Aim(Throughput.LITRES, 50, 3.3);

  /** Without a tail, from 1200 mg/kg at 1 L per hold-up: 0.05, 0.01 and 50/1200 of it. */
  @Test
  void takesAsManyHoldUpsAsTheReferenceSays() {
    JsonNode reference = ChemistryReference.entry("flush");

    assertThat(reached(60)).isCloseTo(reference.at("/holdUpsTo/0.05").asDouble(), within(6e-4));
    assertThat(reached(12)).isCloseTo(reference.at("/holdUpsTo/0.01").asDouble(), within(6e-4));
    assertThat(reached(50)).isCloseTo(reference.at("/from1200to50").asDouble(), within(6e-4));
  }

  private static double reached(double level) {
    Forecast forecast = flush(new Aim(Throughput.LITRES, level, 3.3), exact(1200, 0, 1, 0, 2.5));
    assertThat(parameter("V_h", forecast).value()).isCloseTo(1, within(1e-6));
    assertThat(parameter("C_1", forecast).value()).isCloseTo(1200, within(1e-3));
    return 2.5 + expected(forecast).remaining().value();
  }

  /** V_1 counts: the first sample comes after 7 L. The level lies 2 hold-ups behind the last. */
  @Test
  void findsHoldUpAndTail() {
    double tail = 20;
    double first = tail + 30 * Math.exp(8);
    Forecast forecast = flush(AIM, exact(first, tail, 20, 7, 127));

    assertThat(parameter("V_h", forecast).value()).isCloseTo(20, within(1e-5));
    assertThat(parameter("C_inf", forecast).value()).isCloseTo(tail, within(1e-4));
    assertThat(parameter("C_1", forecast).value()).isCloseTo(first, within(0.1));
    assertThat(expected(forecast).remaining().value()).isCloseTo(40, within(1e-3));
    assertThat(forecast.reason()).contains("after 40 L more, 2 hold-ups");
  }

  /** Readings every 5 L, scattering by a part of the level, up to some volume. */
  @ParameterizedTest
  @CsvSource({"30, 0.05, 80", "30, 0.1, 80", "10, 0.05, 80", "40, 0.03, 100"})
  void coversTheTruthAsOftenAsItSays(double tail, double relative, double to) {
    double truth = Math.max(0, 20 * Math.log((4000 - tail) / (50 - tail)) - to);
    double coverage =
        coverage(400, truth, random -> flush(AIM, scattered(tail, relative, to, random)));

    assertThat(coverage).isBetween(0.90, 0.99);
  }

  @Test
  void saysThatATailAboveTheLevelNeverGetsClean() {
    Forecast forecast = flush(AIM, scattered(80, 0.05, 150, new SplittableRandom(1)));

    assertThat(forecast)
        .isInstanceOfSatisfying(
            Forecast.NoTrend.class,
            never -> assertThat(never.reason()).contains("flattens", "does not clean"));
    assertThat(parameter("C_inf", forecast).value()).isCloseTo(80, within(5.0));
  }

  /** Soap is still falling at 200 mg/kg: whether its tail lies above 50 is not to be seen. */
  @Test
  void leavesTheEndOpenWhereTheTailMayLieAbove() {
    Forecast forecast = flush(AIM, scattered(0, 0.1, 60, new SplittableRandom(4)));
    Forecast.Remaining left = expected(forecast).remaining();

    assertThat(left.upper()).isInfinite();
    assertThat(left.value()).isFinite();
    assertThat(forecast.reason()).contains("or more: the soap may flatten above it");
  }

  /** By the same curve, of many scattered flushes some seem to flatten above the level. */
  @Test
  void asksForMoreWhereATailAboveTheLevelIsNotCertain() {
    SplittableRandom random = new SplittableRandom(9);
    List<Forecast> forecasts =
        DoubleStream.generate(() -> 0)
            .limit(200)
            .mapToObj(tail -> flush(AIM, scattered(tail, 0.1, 60, random)))
            .toList();

    assertThat(forecasts)
        .filteredOn(Forecast.Insufficient.class::isInstance)
        .hasSizeBetween(2, 100)
        .allMatch(each -> each.reason().contains("not certain: take samples further on"));
    assertThat(forecasts).filteredOn(Forecast.NoTrend.class::isInstance).hasSizeLessThan(8);
  }

  /** A tail cannot be negative, however the scatter lies. */
  @Test
  void holdsTheTailAtNothing() {
    List<Reading> bent =
        exact(4000, 0, 20, 0, 60).stream()
            .map(each -> new Reading(each.volume(), each.soap() * (1 - each.volume() / 200)))
            .toList();
    Forecast forecast = flush(AIM, bent);

    assertThat(parameter("C_inf", forecast))
        .isEqualTo(new Forecast.Parameter("C_inf", 0, 0, "mg/kg"));
  }

  @Test
  void callsTwoSamplesRunningClean() {
    List<Reading> readings = new ArrayList<>(exact(4000, 0, 5, 0, 20));
    readings.add(new Reading(30, 50));
    Forecast once = flush(AIM, readings);
    readings.add(new Reading(35, 20));
    Forecast twice = flush(AIM, readings);

    assertThat(once.reason()).doesNotContain("Clean");
    assertThat(twice.reason()).contains("Clean");
    assertThat(expected(twice).remaining().upper()).isZero();
  }

  @Test
  void seesWhatDoesNotFall() {
    List<Reading> level =
        List.of(
            new Reading(0, 410),
            new Reading(5, 400),
            new Reading(10, 395),
            new Reading(15, 405),
            new Reading(20, 400));
    List<Reading> rising =
        level.stream().map(each -> new Reading(each.volume(), 100 + each.volume())).toList();

    assertThat(flush(AIM, level)).isInstanceOf(Forecast.NoTrend.class);
    assertThat(flush(AIM, rising)).isInstanceOf(Forecast.NoTrend.class);
  }

  @Test
  void namesWhatIsMissing() {
    assertThat(flush(AIM, exact(4000, 0, 20, 0, 20).subList(0, 3)).reason())
        .isEqualTo(
            "Needed are samples above detection (3.3 mg/kg) at 5 different volumes; there are 3.");
    List<Reading> readings = new ArrayList<>(exact(4000, 0, 20, 0, 60));
    readings.add(new Reading(10, 300));
    assertThat(flush(AIM, readings).reason()).contains("goes back from 60 to 10 L");
  }

  @Test
  void refusesWhatCannotBe() {
    assertThatIllegalArgumentException().isThrownBy(() -> new Reading(-1, 3));
    assertThatIllegalArgumentException().isThrownBy(() -> new Reading(1, Double.NaN));
    assertThatIllegalArgumentException().isThrownBy(() -> new Aim(Throughput.LITRES, 50, 0));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Aim(Throughput.LITRES, Double.POSITIVE_INFINITY, 3));
  }

  /** Seven samples on a curve. */
  private static List<Reading> exact(
      double c1, double tail, double holdUp, double from, double to) {
    return IntStream.rangeClosed(0, 6)
        .mapToObj(
            i -> {
              double above = (c1 - tail) * Math.exp(-(to - from) * i / 6 / holdUp);
              return new Reading(from + (to - from) * i / 6, tail + above);
            })
        .toList();
  }

  /** Every 5 L from 4000 mg/kg on, a hold-up of 20 L. */
  private static List<Reading> scattered(
      double tail, double relative, double to, SplittableRandom random) {
    return DoubleStream.iterate(0, v -> v <= to, v -> v + 5)
        .mapToObj(
            v ->
                new Reading(
                    v,
                    (tail + (4000 - tail) * Math.exp(-v / 20)) * random.nextGaussian(1, relative)
                        + random.nextGaussian(0, 1)))
        .toList();
  }

  /** Of a flush all of whose samples say what had gone through. */
  private static Forecast flush(Flush.Aim aim, List<Flush.Reading> readings) {
    return Flush.of(aim, readings, readings.stream().map(Flush.Reading::soap).toList());
  }
}
