package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.IntStream;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Works out new revisions of a stream's limits from what is on record. */
@ApplicationScoped
class LimitsFactory {

  /** A stream with so many results has trial limits from them. */
  static final int TRIAL = 20;

  private final Points points;
  private final Signals signals;

  LimitsFactory(Points points, Signals signals) {
    this.points = points;
    this.signals = signals;
  }

  /** Trial limits, where it is time for them: nobody laid down any, and the results vary. */
  Optional<LimitsRevision> trial(Stream stream, List<LimitsRevision> revisions, Instant now) {
    if (!revisions.isEmpty() || points.count(stream.id()) < TRIAL) {
      return Optional.empty();
    }
    BaselineResults first = BaselineResults.of(points.from(stream.id(), 1, TRIAL), List.of());
    Dispersion dispersion = stream.chart().dispersion();
    if (dispersion.sigma(first.values()) == 0) {
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
            limits,
            dispersion,
            stream.chart().detectors(),
            null,
            List.of(),
            first.diagnose(plotting, limits, dispersion, stream.chart().detectors()),
            List.of()));
  }

  /** Limits that somebody adopts. */
  LimitsRevision adopted(
      Stream stream, List<LimitsRevision> revisions, NewLimits wanted, Instant now) {
    Dispersion dispersion =
        Optional.ofNullable(wanted.dispersion()).orElse(stream.chart().dispersion());
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
      limits = Refusal.at("#/given", () -> given.limits(stream.chart().scale(), nonNegative));
    } else {
      BaselineResults chosen =
          BaselineResults.of(choose(stream, wanted.source()), wanted.excluded());
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
        limits,
        baseline == null ? null : dispersion,
        stream.chart().detectors(),
        wanted.reason(),
        wanted.excluded(),
        diagnostics,
        wanted.reestimateAt());
  }

  /**
   * The limits laid down last, estimated once more from more results: where that was planned, so
   * many results are there, and no signal among them waits for its cause. A drift moves no limits.
   */
  Optional<LimitsRevision> planned(Stream stream, List<LimitsRevision> revisions, Instant now) {
    LimitsRevision latest = revisions.isEmpty() ? null : revisions.get(revisions.size() - 1);
    if (latest == null || latest.reestimateAt().isEmpty()) {
      return Optional.empty();
    }
    int wanted = latest.reestimateAt().get(0);
    List<Point> chosen = firstUsable(stream, wanted, latest.excluded());
    if (chosen.isEmpty() || isSignalling(stream, chosen, latest.excluded())) {
      return Optional.empty();
    }
    List<Exclusion> excluded =
        latest.excluded().stream().filter(out -> isAmong(chosen, out)).toList();
    BaselineResults results = BaselineResults.of(chosen, excluded);
    Dispersion dispersion = Optional.ofNullable(latest.dispersion()).orElseThrow();
    try {
      Plotting plotting = results.plotting(latest.plotting().scale());
      ControlLimits limits = results.limits(plotting, dispersion, stream.measurand().nonNegative());
      return Optional.of(
          new LimitsRevision(
              revisions.size() + 1,
              LimitsRevision.Status.ADOPTED,
              LimitsRevision.Origin.PLANNED,
              latest.effectiveFrom(),
              now,
              results.span(),
              plotting,
              limits,
              dispersion,
              stream.chart().detectors(),
              latest.reason(),
              excluded,
              results.diagnose(plotting, limits, dispersion, stream.chart().detectors()),
              latest.reestimateAt().subList(1, latest.reestimateAt().size())));
    } catch (IllegalArgumentException none) {
      // A later result may have no place on the scale; the limits that are there stay.
      return Optional.empty();
    }
  }

  /** The first points with so many among them that are not left out; none where there are fewer. */
  private List<Point> firstUsable(Stream stream, int wanted, List<Exclusion> excluded) {
    List<Point> first = points.from(stream.id(), 1, wanted + excluded.size());
    int usable = 0;
    for (int i = 0; i < first.size(); i++) {
      UUID result = first.get(i).result().result();
      usable += excluded.stream().anyMatch(out -> out.result().equals(result)) ? 0 : 1;
      if (usable == wanted) {
        return first.subList(0, i + 1);
      }
    }
    return List.of();
  }

  private static boolean isAmong(List<Point> chosen, Exclusion out) {
    return chosen.stream().anyMatch(point -> point.result().result().equals(out.result()));
  }

  /** Whether a signal waits for its cause that was raised among them, not at one left out. */
  private boolean isSignalling(Stream stream, List<Point> chosen, List<Exclusion> excluded) {
    Place last = chosen.get(chosen.size() - 1).place();
    return signals.liveSince(stream.id(), chosen.get(0).result().sampledAt()).stream()
        .filter(signal -> signal.state() == Signal.State.UNEXPLAINED)
        .filter(signal -> !last.isBefore(signal.opening()))
        .anyMatch(
            signal -> excluded.stream().noneMatch(out -> out.result().equals(signal.result())));
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
        limits.limits(),
        limits.dispersion(),
        stream.chart().detectors(),
        null,
        limits.excluded(),
        limits.diagnostics(),
        limits.reestimateAt());
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
