package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.productline.ChartSettings;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Works out new revisions of a stream's limits from what is on record. */
@ApplicationScoped
class LimitsFactory {

  /** A stream with so many results has trial limits from them. */
  static final int TRIAL = 20;

  private final Points points;
  private final Exclusions exclusions;

  LimitsFactory(Points points, Exclusions exclusions) {
    this.points = points;
    this.exclusions = exclusions;
  }

  /**
   * Trial limits, where it is time for them: nobody adopted any, the phase has none of its own, and
   * its first results suffice and vary.
   *
   * @param sampledAt a time in the phase
   */
  Optional<LimitsRevision> trial(Stream stream, Regime regime, Instant sampledAt, Instant now) {
    Instant beginning = regime.phases().beginning(sampledAt);
    List<Point> chosen = regime.awaitsTrial(sampledAt) ? firstOf(stream, beginning) : List.of();
    if (chosen.size() < TRIAL
        || regime.phases().separate(sampledAt, chosen.get(TRIAL - 1).result().sampledAt())) {
      return Optional.empty();
    }
    BaselineResults first =
        BaselineResults.of(stream.chart().isOfSubgroups(), chosen, List.of(), regime.phases());
    Dispersion dispersion = stream.chart().dispersion();
    if (!first.subgroups() && dispersion.sigma(first.values()) == 0) {
      // Where most coarse results are equal, only the mean of the ranges is above 0.
      dispersion = Dispersion.MOVING_RANGE;
    }
    Plotting plotting;
    ControlLimits limits;
    try {
      plotting = first.plotting(first.scale(stream.chart().scale()));
      limits = first.limits(plotting, dispersion, stream.measurand().nonNegative());
    } catch (IllegalArgumentException none) {
      // Results that are all equal give no limits; nobody asked for any, so nobody is refused.
      return Optional.empty();
    }
    return Optional.of(
        new LimitsRevision(
            regime.revisions().size() + 1,
            LimitsRevision.Status.TRIAL,
            LimitsRevision.Origin.BASELINE,
            beginning,
            now,
            first.span(),
            plotting,
            stream.chart().subgroupSize(),
            limits,
            dispersion,
            stream.chart().detectors(),
            null,
            List.of(),
            first.diagnose(plotting, limits, dispersion, stream.chart().detectors()),
            List.of()));
  }

  private List<Point> firstOf(Stream stream, @Nullable Instant beginning) {
    return points
        .firstSince(stream.id(), beginning)
        .map(first -> points.from(stream.id(), first.position(), TRIAL))
        .orElse(List.of());
  }

  /** Limits that somebody adopts. */
  LimitsRevision adopted(Stream stream, Regime regime, NewLimits wanted, Instant now) {
    Dispersion dispersion = dispersion(stream.chart(), wanted.dispersion());
    boolean nonNegative = stream.measurand().nonNegative();
    boolean firstAdoption = regime.revisions().stream().noneMatch(LimitsRevision::isAdopted);
    List<Exclusion> excluded = wanted.excluded();
    LimitsRevision.Baseline baseline = null;
    BaselineDiagnostics diagnostics = null;
    Instant usualStart = firstAdoption ? null : now;
    Plotting plotting;
    ControlLimits limits;
    if (wanted.source() instanceof NewLimits.Given given) {
      plotting = Refusal.at("#/given", () -> given.plotting(stream.chart().scale()));
      limits = Refusal.at("#/given", () -> given.limits(stream.chart(), nonNegative));
    } else {
      List<Point> found = choose(stream, wanted.source());
      excluded =
          exclusions.with(stream, wanted.excluded()).stream()
              .filter(exclusion -> exclusion.isNamed() || exclusion.isAmong(found))
              .toList();
      BaselineResults chosen =
          BaselineResults.of(stream.chart().isOfSubgroups(), found, excluded, regime.phases());
      plotting = Refusal.at("#/baseline", () -> chosen.plotting(stream.chart().scale()));
      Plotting onScale = plotting;
      limits = Refusal.at("#/baseline", () -> chosen.limits(onScale, dispersion, nonNegative));
      baseline = chosen.span();
      diagnostics = chosen.diagnose(plotting, limits, dispersion, stream.chart().detectors());
      usualStart = firstAdoption ? null : baseline.from();
    }
    return new LimitsRevision(
        regime.revisions().size() + 1,
        LimitsRevision.Status.ADOPTED,
        baseline == null ? LimitsRevision.Origin.GIVEN : LimitsRevision.Origin.BASELINE,
        wanted.effectiveFrom() == null ? usualStart : wanted.effectiveFrom(),
        now,
        baseline,
        plotting,
        stream.chart().subgroupSize(),
        limits,
        baseline == null ? null : dispersion,
        stream.chart().detectors(),
        wanted.reason(),
        excluded,
        diagnostics,
        wanted.reestimateAt());
  }

  private static Dispersion dispersion(ChartSettings chart, @Nullable Dispersion wanted) {
    return wanted == null
        ? chart.dispersion()
        : Refusal.at("#/dispersion", () -> wanted.forSubgroupsOf(chart.subgroupSize()));
  }

  private List<Point> choose(Stream stream, NewLimits.Source source) {
    int count = points.count(stream.id());
    if (source instanceof NewLimits.First first) {
      refuseMoreThan(count, first.count(), "#/baseline/first");
      return points.from(stream.id(), 1, first.count());
    }
    if (source instanceof NewLimits.Last last) {
      refuseMoreThan(count, last.count(), "#/baseline/last");
      return points.from(stream.id(), count - last.count() + 1, last.count());
    }
    NewLimits.Period period = (NewLimits.Period) source;
    return points.between(stream.id(), period.from(), period.to());
  }

  private static void refuseMoreThan(int count, int wanted, String pointer) {
    if (wanted > count) {
      throw Refusal.impossible(
          pointer,
          "The stream has %d results, and %d are asked for. Record more, or ask for fewer."
              .formatted(count, wanted));
    }
  }
}
