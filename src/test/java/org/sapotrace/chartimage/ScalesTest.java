package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.controlchart.ControlChart;

class ScalesTest {

  private static ValueScale values(ControlChart chart) {
    return ValueScale.of(chart, 300, 1);
  }

  private static List<Abscissa.Tick> ticks(String from, Duration step, int n) {
    ControlChart chart = new SampleChart().from(from, step).normal(n, 31.2, 3.9, 1).build();
    return TimeScale.of(chart, 600, 10).ticks(60);
  }

  @Test
  void showsResultsLimitsAndANearSpecification() {
    ValueScale scale = values(new SampleChart().points(30, 33).build());
    assertThat(scale.bottom()).isBetween(10.0, 19.4);
    assertThat(scale.top()).isBetween(66.2, 75.0);
  }

  @Test
  void givesTheResultsAtLeastAQuarterOfTheHeight() {
    // Limits span 23.6: a specification at 19.4 + 4 x 23.6 = 113.8 just leaves them a quarter.
    assertThat(values(new SampleChart().specification(null, 113.7).points(30).build()).top())
        .isGreaterThan(113.7);
    assertThat(values(new SampleChart().specification(null, 113.9).points(30).build()).top())
        .isLessThan(50);
  }

  @Test
  void hasRoomAroundResultsThatAreAllEqual() {
    ValueScale scale =
        values(new SampleChart().noLimits().specification(null, null).points(30, 30).build());
    assertThat(scale.bottom()).isLessThan(30);
    assertThat(scale.y(30)).isEqualTo(150);
  }

  @Test
  void ticksAreRoundAndFarEnoughApart() {
    assertThat(new ValueScale(17.3, 68.1, 300).ticks(40))
        .containsExactly(20.0, 30.0, 40.0, 50.0, 60.0);
    assertThat(new ValueScale(-1.2e-9, 1.1e-9, 100).ticks(40)).containsExactly(-1e-9, 0.0, 1e-9);
  }

  @ParameterizedTest
  @CsvSource({
    "43.04, 70, 0.5, 43.0",
    "43.04, 120, 1.2, 43",
    "0.0123, 0.05, 0.0004, 0.0123",
    "-6, 20, 0.2, −6.0",
    "-0.001, 20, 0.2, 0.0",
    "4.36e9, 4.4e9, 1e6, 4.360e9",
    "3.2e-9, 5e-9, 2e-11, 3.20e−9",
    "-1e12, 1e12, 1e11, −1.0e12"
  })
  void writesTheDigitsThatCanBeSeen(double value, double largest, double step, String text) {
    assertThat(Digits.telling(largest, step).write(value)).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource({"66.2, 66.2", "66.25, 66.25", "50, 50", "1200, 1200", "0.05, 0.05", "-3, −3"})
  void writesASpecificationAsItWasGiven(double value, String text) {
    assertThat(Digits.telling(100, 1).given(value)).isEqualTo(text);
  }

  @Test
  void writesDaysWithTheYear() {
    List<Abscissa.Tick> ticks = ticks("2025-12-20T06:00:00Z", Duration.ofDays(1), 31);
    assertThat(ticks)
        .extracting(Abscissa.Tick::label)
        .containsExactly("22 Dec", "29 Dec", "5 Jan", "12 Jan", "19 Jan");
    assertThat(ticks)
        .extracting(Abscissa.Tick::context)
        .containsExactly("2025", "2025", "2026", "2026", "2026");
  }

  @Test
  void writesHoursWithinTwoDays() {
    assertThat(ticks("2026-03-14T18:20:00Z", Duration.ofMinutes(45), 30))
        .extracting(Abscissa.Tick::label)
        .containsExactly("18:00", "21:00", "00:00", "03:00", "06:00", "09:00", "12:00", "15:00");
    assertThat(ticks("2026-03-14T18:20:00Z", Duration.ofHours(12), 5))
        .extracting(Abscissa.Tick::label)
        .containsExactly("15 Mar", "16 Mar");
  }

  @Test
  void writesMonthsAndYearsOfLongPeriods() {
    assertThat(ticks("2026-01-05T00:00:00Z", Duration.ofDays(10), 20))
        .extracting(Abscissa.Tick::label)
        .containsExactly("Feb", "Mar", "Apr", "May", "Jun", "Jul");
    assertThat(ticks("2016-01-05T00:00:00Z", Duration.ofDays(100), 40))
        .extracting(Abscissa.Tick::label)
        .containsExactly("2016", "2018", "2020", "2022", "2024", "2026");
  }

  @Test
  void writesTheTimeOfOneResultAndNothingWithoutAny() {
    assertThat(ticks("2026-03-14T18:20:00Z", Duration.ofDays(1), 1))
        .containsExactly(new Abscissa.Tick(300, "18:20", "14 Mar 2026"));
    assertThat(ticks("2026-03-14T18:20:00Z", Duration.ofDays(1), 0)).isEmpty();
  }

  private static Abscissa sequence(int n) {
    return Axis.SEQUENCE.over(new SampleChart().normal(n, 31.2, 3.9, 1).build(), 410, 10);
  }

  @Test
  void putsResultsOfASequenceAtEvenDistances() {
    ControlChart chart = new SampleChart().normal(40, 31.2, 3.9, 1).build();
    Abscissa across = Axis.SEQUENCE.over(chart, 410, 10);
    assertThat(across.x(chart.points().get(0))).isEqualTo(10);
    assertThat(across.x(chart.points().get(39))).isEqualTo(400);
    assertThat(across.x(chart.points().get(13).at())).isEqualTo(140);
    assertThat(across.x(chart.points().get(13).at().plusSeconds(60))).isEqualTo(145);
    assertThat(across.x(Instant.parse("2025-01-01T00:00:00Z"))).isEqualTo(5);
    assertThat(across.x(Instant.parse("2027-01-01T00:00:00Z"))).isEqualTo(405);
  }

  @Test
  void numbersResultsOfASequenceAndDatesThem() {
    assertThat(sequence(40).ticks(45))
        .containsExactly(
            new Abscissa.Tick(50, "5", "6 Mar"),
            new Abscissa.Tick(100, "10", "11 Mar"),
            new Abscissa.Tick(150, "15", "16 Mar"),
            new Abscissa.Tick(200, "20", "21 Mar"),
            new Abscissa.Tick(250, "25", "26 Mar"),
            new Abscissa.Tick(300, "30", "31 Mar"),
            new Abscissa.Tick(350, "35", "5 Apr"),
            new Abscissa.Tick(400, "40", "10 Apr"));
    assertThat(sequence(1).ticks(45)).containsExactly(new Abscissa.Tick(205, "1", "2 Mar"));
    assertThat(sequence(0).ticks(45)).isEmpty();
    assertThat(sequence(5000).ticks(45)).hasSize(5);
  }

  @Test
  void findsRoundInstantsInPeriodsOfAnyLength() {
    for (Duration step = Duration.ofMillis(1);
        step.toDays() < 20_000;
        step = step.multipliedBy(3)) {
      assertThat(ticks("2026-03-14T18:20:00Z", step, 30)).as("%s", step).hasSizeBetween(1, 12);
    }
  }
}
