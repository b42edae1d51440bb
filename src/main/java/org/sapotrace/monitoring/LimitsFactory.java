package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
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

  LimitsFactory(Points points) {
    this.points = points;
  }

  /** Trial limits, where it is time for them: nobody laid down any, and the results vary. */
  Optional<LimitsRevision> trial(Stream stream, List<LimitsRevision> revisions, Instant now) {
    if (!revisions.isEmpty() || points.count(stream.id()) < TRIAL) {
      return Optional.empty();
    }
    BaselineResults first =
        BaselineResults.of(stream, points.from(stream.id(), 1, TRIAL), List.of());
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
            1,
            LimitsRevision.Status.TRIAL,
            LimitsRevision.Origin.BASELINE,
            null,
            now,
            first.span(),
            plotting,
            stream.chart().subgroupSize(),
            limits,
            dispersion,
            stream.chart().detectors(),
            null,
            List.of(),
            first.diagnose(plotting, limits, dispersion, stream.chart().detectors())));
  }

  /** Limits that somebody adopts. */
  LimitsRevision adopted(
      Stream stream, List<LimitsRevision> revisions, NewLimits wanted, Instant now) {
    Dispersion dispersion = dispersion(stream.chart(), wanted.dispersion());
    boolean nonNegative = stream.measurand().nonNegative();
    boolean firstAdoption =
        revisions.stream().noneMatch(r -> r.status() == LimitsRevision.Status.ADOPTED);
    LimitsRevision.Baseline baseline = null;
    BaselineDiagnostics diagnostics = null;
    Instant usualStart = firstAdoption ? null : now;
    Plotting plotting;
    ControlLimits limits;
    if (wanted.source() instanceof NewLimits.Given given) {
      plotting = Refusal.at("#/given", () -> given.plotting(stream.chart().scale()));
      limits = Refusal.at("#/given", () -> given.limits(stream.chart(), nonNegative));
    } else {
      BaselineResults chosen =
          BaselineResults.of(stream, choose(stream, wanted.source()), wanted.excluded());
      plotting = Refusal.at("#/baseline", () -> chosen.plotting(stream.chart().scale()));
      Plotting onScale = plotting;
      limits = Refusal.at("#/baseline", () -> chosen.limits(onScale, dispersion, nonNegative));
      baseline = chosen.span();
      diagnostics = chosen.diagnose(plotting, limits, dispersion, stream.chart().detectors());
      usualStart = firstAdoption ? null : baseline.from();
    }
    return new LimitsRevision(
        revisions.size() + 1,
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
        wanted.excluded(),
        diagnostics);
  }

  private static Dispersion dispersion(ChartSettings chart, @Nullable Dispersion wanted) {
    return wanted == null
        ? chart.dispersion()
        : Refusal.at("#/dispersion", () -> wanted.forSubgroupsOf(chart.subgroupSize()));
  }

  /**
   * The limits in force, and those that are laid down for later, under the stream's new rules.
   *
   * @param from the first time of sampling that the new rules judge
   */
  List<LimitsRevision> afterChange(Stream stream, List<LimitsRevision> revisions, Instant from) {
    List<LimitsRevision> changed = new ArrayList<>();
    Judge.inForce(revisions, from)
        .filter(current -> !isUnderNewRules(stream, current))
        .ifPresent(current -> changed.add(underNewRules(stream, current, from, from)));
    for (LimitsRevision later : revisions) {
      Instant beginning = later.effectiveFrom();
      if (beginning != null
          && beginning.isAfter(from)
          && !isUnderNewRules(stream, later)
          && Judge.inForce(revisions, beginning).equals(Optional.of(later))) {
        changed.add(underNewRules(stream, later, beginning, from));
      }
    }
    return IntStream.range(0, changed.size())
        .mapToObj(i -> changed.get(i).withRevision(revisions.size() + 1 + i))
        .toList();
  }

  /** A change of what limits are laid down by alters none that are there. */
  private static boolean isUnderNewRules(Stream stream, LimitsRevision limits) {
    return limits.detectors().equals(stream.chart().detectors());
  }

  private static LimitsRevision underNewRules(
      Stream stream, LimitsRevision limits, Instant effectiveFrom, Instant now) {
    return new LimitsRevision(
        limits.revision(),
        limits.status(),
        LimitsRevision.Origin.SETTINGS,
        effectiveFrom,
        now,
        limits.baseline(),
        limits.plotting(),
        limits.subgroupSize(),
        limits.limits(),
        limits.dispersion(),
        stream.chart().detectors(),
        null,
        limits.excluded(),
        limits.diagnostics());
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
    return points
        .judged(stream.id(), new PointSelection(null, period.from(), period.to()), null)
        .stream()
        .map(JudgedPoint::point)
        .toList();
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
