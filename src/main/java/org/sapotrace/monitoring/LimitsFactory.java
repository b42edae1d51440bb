package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
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
        || regime.phases().separate(chosen.get(0), chosen.get(chosen.size() - 1))) {
      return Optional.empty();
    }
    BaselineResults first = BaselineResults.of(chosen, List.of(), regime.phases());
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
            regime.revisions().size() + 1,
            LimitsRevision.Status.TRIAL,
            LimitsRevision.Origin.BASELINE,
            beginning,
            now,
            first.span(),
            plotting,
            limits,
            dispersion,
            stream.chart().detectors(),
            null,
            List.of(),
            first.diagnose(plotting, limits, dispersion, stream.chart().detectors())));
  }

  private List<Point> firstOf(Stream stream, @Nullable Instant beginning) {
    return points
        .firstSince(stream.id(), beginning)
        .map(first -> points.from(stream.id(), first.position(), TRIAL))
        .orElse(List.of());
  }

  /** Limits that somebody adopts. */
  LimitsRevision adopted(Stream stream, Regime regime, NewLimits wanted, Instant now) {
    Dispersion dispersion =
        Optional.ofNullable(wanted.dispersion()).orElse(stream.chart().dispersion());
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
      limits = Refusal.at("#/given", () -> given.limits(stream.chart().scale(), nonNegative));
    } else {
      List<Point> found = choose(stream, wanted.source());
      excluded = withThoseOfFindings(stream, found, excluded);
      BaselineResults chosen = BaselineResults.of(found, excluded, regime.phases());
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
        limits,
        baseline == null ? null : dispersion,
        stream.chart().detectors(),
        wanted.reason(),
        excluded,
        diagnostics);
  }

  /** What is left out on request, and what findings leave out of any baseline. */
  private List<Exclusion> withThoseOfFindings(
      Stream stream, List<Point> chosen, List<Exclusion> wanted) {
    List<Exclusion> all = new ArrayList<>(wanted);
    Set<UUID> left = chosen.stream().map(p -> p.result().result()).collect(Collectors.toSet());
    wanted.forEach(exclusion -> left.remove(exclusion.result()));
    for (Signal signal : signals.explained(stream.id())) {
      Finding finding = Objects.requireNonNull(signal.finding(), "explained");
      for (UUID result : finding.exclude()) {
        if (left.remove(result)) {
          all.add(new Exclusion(result, finding.cause(), signal.id()));
        }
      }
    }
    return all;
  }

  /**
   * The limits in force, and those that are laid down for later, under the stream's new rules.
   *
   * @param from the first time of sampling that the new rules judge
   */
  List<LimitsRevision> afterChange(Stream stream, Regime regime, Instant from) {
    Detectors rules = stream.chart().detectors();
    return again(
        regime,
        from,
        // A change of what limits are laid down by alters none that are there.
        limits -> !limits.detectors().equals(rules),
        (limits, number, beginning) ->
            limits.again(number, LimitsRevision.Origin.SETTINGS, beginning, from, rules));
  }

  /**
   * The adopted limits in force when a new phase begins, and those that are laid down for later, so
   * that what was judged before the phase was known stays; none where none are in force then.
   *
   * @param at the beginning of the phase
   */
  List<LimitsRevision> inNewPhase(Regime regime, Instant at, Instant now) {
    if (regime.inForce(at).filter(LimitsRevision::isAdopted).isEmpty()) {
      return List.of();
    }
    return again(
        regime,
        at,
        LimitsRevision::isAdopted,
        (limits, number, beginning) ->
            limits.again(number, LimitsRevision.Origin.PHASE, beginning, now, limits.detectors()));
  }

  /** Makes a revision of some limits that holds from then on. */
  @FunctionalInterface
  private interface Copy {
    LimitsRevision of(LimitsRevision limits, int number, Instant beginning);
  }

  /** The limits in force at a time, and those laid down for later, as far as they are concerned. */
  private static List<LimitsRevision> again(
      Regime regime, Instant from, Predicate<LimitsRevision> concerned, Copy copy) {
    Map<Instant, LimitsRevision> since = new LinkedHashMap<>();
    regime.inForce(from).filter(concerned).ifPresent(current -> since.put(from, current));
    for (LimitsRevision later : regime.revisions()) {
      Instant beginning = later.effectiveFrom();
      if (beginning != null
          && beginning.isAfter(from)
          && concerned.test(later)
          && regime.inForce(beginning).equals(Optional.of(later))) {
        since.put(beginning, later);
      }
    }
    List<LimitsRevision> copies = new ArrayList<>();
    int known = regime.revisions().size();
    since.forEach(
        (beginning, limits) -> copies.add(copy.of(limits, known + copies.size() + 1, beginning)));
    return copies;
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
