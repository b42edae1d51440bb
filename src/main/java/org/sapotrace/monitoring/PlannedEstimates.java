package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.productline.Stream;

/** Works out limits that were planned when earlier ones were adopted. */
@ApplicationScoped
class PlannedEstimates {

  private final Points points;
  private final Signals signals;
  private final Exclusions exclusions;

  PlannedEstimates(Points points, Signals signals, Exclusions exclusions) {
    this.points = points;
    this.signals = signals;
    this.exclusions = exclusions;
  }

  /**
   * The limits laid down last, estimated once more from more results: where that was planned, so
   * many results are there, no new phase has begun, and no signal among them waits for its cause. A
   * drift moves no limits.
   */
  Optional<LimitsRevision> of(Stream stream, Regime regime, Instant now) {
    if (!regime.hasPlan()) {
      return Optional.empty();
    }
    LimitsRevision latest = regime.revisions().get(regime.revisions().size() - 1);
    List<Exclusion> named = latest.excluded().stream().filter(Exclusion::isNamed).toList();
    List<Exclusion> out = exclusions.with(stream, named);
    List<Point> chosen = firstUsable(stream, latest.reestimateAt().get(0), out);
    if (chosen.isEmpty()
        || isInNewPhase(chosen, latest, regime.phases())
        || isSignalling(stream, chosen, out)) {
      return Optional.empty();
    }
    List<Exclusion> excluded = out.stream().filter(each -> each.isAmong(chosen)).toList();
    BaselineResults results =
        BaselineResults.of(latest.isOfSubgroups(), chosen, excluded, regime.phases());
    Dispersion dispersion = Optional.ofNullable(latest.dispersion()).orElseThrow();
    try {
      Plotting plotting = results.plotting(latest.plotting().scale());
      ControlLimits limits = results.limits(plotting, dispersion, stream.measurand().nonNegative());
      return Optional.of(
          new LimitsRevision(
              latest.revision() + 1,
              LimitsRevision.Status.ADOPTED,
              LimitsRevision.Origin.PLANNED,
              latest.effectiveFrom(),
              now,
              results.span(),
              plotting,
              latest.subgroupSize(),
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

  /** Whether the results that would be added reach into another phase. */
  private static boolean isInNewPhase(List<Point> chosen, LimitsRevision latest, Phases phases) {
    Instant before = Objects.requireNonNull(latest.baseline(), "estimated once").to();
    return phases.separate(before, chosen.get(chosen.size() - 1).result().sampledAt());
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

  /** Whether a signal waits for its cause that was raised among them, not at one left out. */
  private boolean isSignalling(Stream stream, List<Point> chosen, List<Exclusion> excluded) {
    Place last = chosen.get(chosen.size() - 1).place();
    return signals.liveSince(stream.id(), chosen.get(0).result().sampledAt()).stream()
        .filter(signal -> signal.state() == Signal.State.UNEXPLAINED)
        .filter(signal -> !last.isBefore(signal.opening()))
        .anyMatch(
            signal -> excluded.stream().noneMatch(out -> out.result().equals(signal.result())));
  }
}
