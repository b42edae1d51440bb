package org.sapotrace.forecast;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.measure.Rounding;
import org.sapotrace.washmodel.Forecast.Parameter;

/**
 * How old a bed is: since it was new, and since it was flushed. A flush clears film and glycerin,
 * and restores no exchange sites, so that neither age stands for the other.
 *
 * @param passed what went through since it was new, of one sample or more
 * @param changed when it was new; null where nobody recorded that
 * @param flushed when it was flushed last since then, before the latest sample; null for never
 */
record BedAge(Passed passed, @Nullable Instant changed, @Nullable Instant flushed) {

  /** The name of what goes through in a day. */
  static final String A_DAY = "throughput a day";

  private static final int LATEST = 10;
  private static final double MILLIS_A_DAY = Duration.ofDays(1).toMillis();

  /** What is counted, as far as it is known. */
  List<Parameter> parameters() {
    String unit = passed.counted().unit();
    List<Parameter> counted = new ArrayList<>();
    counted.add(counted("throughput since new", volume(), unit));
    if (changed != null) {
      counted.add(counted("age since new", days(changed), "d"));
    }
    if (flushed != null) {
      Double since = sinceFlush(flushed);
      if (since != null) {
        counted.add(counted("throughput since flush", since, unit));
      }
      counted.add(counted("age since flush", days(flushed), "d"));
    }
    double rate = aDay();
    if (rate > 0) {
      counted.add(counted(A_DAY, rate, unit + "/d"));
    }
    return counted;
  }

  private static Parameter counted(String name, double value, String unit) {
    return new Parameter(name, value, 0, unit);
  }

  private double volume() {
    return passed.volume(passed.last());
  }

  private double days(Instant since) {
    return Duration.between(since, passed.last().sampledAt()).toMillis() / MILLIS_A_DAY;
  }

  /** From the last sample before the flush; null where there was none. */
  private @Nullable Double sinceFlush(Instant flush) {
    return passed.samples().stream()
        .filter(sample -> sample.sampledAt().isBefore(flush))
        .reduce((earlier, later) -> later)
        .map(before -> volume() - passed.volume(before))
        .orElse(null);
  }

  /** Over the latest samples; 0 where they tell none. */
  private double aDay() {
    List<Sample> samples = passed.samples();
    Sample first = samples.get(Math.max(0, samples.size() - LATEST));
    double days = days(first.sampledAt());
    return days > 0 ? (volume() - passed.volume(first)) / days : 0;
  }

  /** Both ages, in words. */
  List<String> inWords() {
    List<String> words = new ArrayList<>();
    String through = Rounding.of(volume()) + " " + passed.counted().unit();
    words.add(
        changed == null
            ? "The bed has taken %s since it was new.".formatted(through)
            : "The bed has taken %s since it was new on %s.".formatted(through, day(changed)));
    if (flushed != null) {
      Double since = sinceFlush(flushed);
      words.add(
          since == null
              ? "It was flushed on %s, which restores no exchange sites.".formatted(day(flushed))
              : "It was flushed on %s, %s %s ago, which restores no exchange sites."
                  .formatted(day(flushed), Rounding.of(since), passed.counted().unit()));
    }
    return words;
  }

  static LocalDate day(Instant at) {
    return LocalDate.ofInstant(at, ZoneOffset.UTC);
  }
}
