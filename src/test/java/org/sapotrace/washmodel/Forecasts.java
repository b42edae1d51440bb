package org.sapotrace.washmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.stream.Stream;

/** What tests of forecasts have in common. */
final class Forecasts {

  private Forecasts() {}

  static Forecast.Expected expected(Forecast forecast) {
    assertThat(forecast).isInstanceOf(Forecast.Expected.class);
    return (Forecast.Expected) forecast;
  }

  static Forecast.Parameter parameter(String name, Forecast forecast) {
    List<Forecast.Parameter> parameters =
        forecast instanceof Forecast.NoTrend noTrend
            ? noTrend.parameters()
            : expected(forecast).parameters();
    return parameters.stream().filter(each -> each.name().equals(name)).findFirst().orElseThrow();
  }

  /** Of seeded forecasts that name what is left, the share whose interval holds the truth. */
  static double coverage(int trials, double truth, Function<SplittableRandom, Forecast> forecast) {
    SplittableRandom random = new SplittableRandom(20_261_125);
    List<Forecast.Remaining> remaining =
        Stream.generate(() -> forecast.apply(random.split()))
            .limit(trials)
            .filter(Forecast.Expected.class::isInstance)
            .map(each -> expected(each).remaining())
            .toList();
    assertThat(remaining).hasSizeGreaterThan(trials / 2);
    return remaining.stream().filter(each -> each.lower() <= truth && truth <= each.upper()).count()
        / (double) remaining.size();
  }
}
