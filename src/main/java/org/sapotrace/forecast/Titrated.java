package org.sapotrace.forecast;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Titration;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.chemistry.Repeatability;
import org.sapotrace.productline.Line;

/** Results of one stream that count, as evidence of what moved. */
record Titrated(Kind kind, List<RecordedResult> results, Line line) {

  /** A mL of fuel is about 0.88 g; what it is used for needs no more digits. */
  private static final double G_PER_ML = 0.88;

  Series in(Series.Window window) {
    return new Series(
        kind,
        window,
        results.stream().flatMap(result -> point(result).stream()).toList(),
        blankEffect(window));
  }

  /** That of what lies before the change, or where none of it was titrated here, of all. */
  private double blankEffect(Series.Window window) {
    OptionalDouble before =
        blankEffect(
            results.stream().filter(result -> result.sampledAt().isBefore(window.change())));
    return before.orElseGet(() -> blankEffect(results.stream()).orElse(0));
  }

  /** The geometric mean, which one result close to 0 does not carry away. */
  private OptionalDouble blankEffect(Stream<RecordedResult> some) {
    OptionalDouble mean =
        some.map(this::blankEffect)
            .flatMapToDouble(OptionalDouble::stream)
            .map(Math::log)
            .average();
    return mean.isPresent() ? OptionalDouble.of(Math.exp(mean.getAsDouble())) : mean;
  }

  /** ln of a result above 0. */
  private Optional<Series.Point> point(RecordedResult result) {
    double value = result.latest().assessment().result().value();
    return value > 0
        ? Optional.of(
            new Series.Point(
                result.sampledAt(),
                Math.log(value),
                relativeRepeatability(result),
                Lots.moving(result, line)))
        : Optional.empty();
  }

  /** What errs anew each time, or all there is where nobody said what it is made of. */
  static double relativeRepeatability(RecordedResult result) {
    Figure figure = result.latest().assessment().result();
    if (figure.budget().isEmpty()) {
      Double u = figure.standardUncertainty();
      return u == null ? Double.NaN : u / figure.value();
    }
    return Math.sqrt(
            figure.budget().stream()
                .filter(source -> Repeatability.includes(source.source()))
                .mapToDouble(source -> source.standardUncertainty() * source.standardUncertainty())
                .sum())
        / figure.value();
  }

  /** k/(m y) with k = c M 1000, in 1/mL; nothing for what was not titrated here, or is not soap. */
  private OptionalDouble blankEffect(RecordedResult result) {
    Assessment assessment = result.latest().assessment();
    double y = assessment.result().value();
    if (!(result.latest().entered() instanceof Titration titration) || !(y > 0)) {
      return OptionalDouble.empty();
    }
    double c = normality(titration.readings().titrant(), assessment.titrant());
    double k = c * line.alkali().soapMolarMass().gramsPerMole() * 1000;
    return titration.readings().replicates().stream()
        .flatMapToDouble(replicate -> DoubleStream.of(portion(replicate)))
        .filter(m -> m > 0)
        .map(m -> k / (m * y))
        .average();
  }

  private static double normality(Readings.Titrant titrant, @Nullable UsedTitrant lot) {
    return lot == null ? Objects.requireNonNull(titrant.normality()) : lot.normality();
  }

  private static double portion(Readings.Replicate replicate) {
    Double mass = replicate.sampleG();
    Double volume = replicate.sampleMl();
    return mass != null ? mass : volume != null ? G_PER_ML * volume : 0;
  }
}
