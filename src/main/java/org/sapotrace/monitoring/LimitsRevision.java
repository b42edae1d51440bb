package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.controlchart.Spread;
import org.sapotrace.controlchart.Subgroup;

/**
 * Control limits and the rules that go with them, as they were laid down once; never changed.
 *
 * @param revision counting from 1 within the stream
 * @param effectiveFrom the first time of sampling that they judge, inclusive; null for the first
 *     result
 * @param adoptedAt when they were laid down
 * @param baseline the results they were computed from; null where they were given
 * @param plotting the scale on which results are judged
 * @param subgroupSize how many values the stream's subgroups had when the limits were laid down; 1
 *     where they are limits of single results, by which the mean of several counts as one
 * @param limits of single values, on that scale
 * @param dispersion how sigma was estimated; null where it was given
 * @param detectors what raises signals under them
 * @param reason what the one who laid them down said of them
 * @param excluded results that were left out of the baseline
 * @param diagnostics what the baseline said about itself; null without one, and for limits laid
 *     down before it was asked
 * @param reestimateAt from how many results, counted from the first, they are to be estimated once
 *     more, the next first; empty where they stay as they are
 */
public record LimitsRevision(
    int revision,
    Status status,
    Origin origin,
    @Nullable Instant effectiveFrom,
    Instant adoptedAt,
    @Nullable Baseline baseline,
    Plotting plotting,
    int subgroupSize,
    ControlLimits limits,
    @Nullable Dispersion dispersion,
    Detectors detectors,
    @Nullable String reason,
    List<Exclusion> excluded,
    @Nullable BaselineDiagnostics diagnostics,
    List<Integer> reestimateAt) {

  public LimitsRevision {
    excluded = List.copyOf(excluded);
    reestimateAt = List.copyOf(reestimateAt);
  }

  /** Whether somebody stands behind the limits. */
  public enum Status {
    /** Laid down by the service itself, from the first twenty results. */
    TRIAL("trial"),
    /** Adopted by somebody. */
    ADOPTED("adopted");

    private final String id;

    Status(String id) {
      this.id = id;
    }

    public String id() {
      return id;
    }
  }

  /** Where the limits come from. */
  public enum Origin {
    /** Computed from results. */
    BASELINE("baseline"),
    /** Computed anew from more results, as was planned when they were adopted. */
    PLANNED("planned"),
    /** Told by somebody who knows centre and sigma. */
    GIVEN("given"),
    /** As the revision before; only what raises signals changed. */
    SETTINGS("settings"),
    /** As the revision before; a new phase began. */
    PHASE("phase");

    private final String id;

    Origin(String id) {
      this.id = id;
    }

    public String id() {
      return id;
    }
  }

  /**
   * The results that limits were computed from.
   *
   * @param n how many
   * @param from when the first sample was taken, inclusive
   * @param to when the last sample was taken, inclusive
   */
  public record Baseline(int n, Instant from, Instant to) {}

  /** The same limits laid down once more, under other rules. */
  LimitsRevision underRules(int number, Instant from, Instant now, Detectors rules) {
    return again(number, Origin.SETTINGS, from, now, rules, reestimateAt);
  }

  /** The same limits laid down once more for a new phase, with which a plan from before it ends. */
  LimitsRevision inNewPhase(int number, Instant from, Instant now) {
    boolean planned = baseline != null && !baseline.to().isBefore(from);
    return again(number, Origin.PHASE, from, now, detectors, planned ? reestimateAt : List.of());
  }

  private LimitsRevision again(
      int number,
      Origin newOrigin,
      Instant newEffectiveFrom,
      Instant now,
      Detectors newDetectors,
      List<Integer> plan) {
    return new LimitsRevision(
        number,
        status,
        newOrigin,
        newEffectiveFrom,
        now,
        baseline,
        plotting,
        subgroupSize,
        limits,
        dispersion,
        newDetectors,
        null,
        excluded,
        diagnostics,
        plan);
  }

  boolean isAdopted() {
    return status == Status.ADOPTED;
  }

  /** Whether they are trial limits from results of which some were sampled then or later. */
  boolean isTrialFrom(Instant at) {
    return !isAdopted() && baseline != null && !baseline.to().isBefore(at);
  }

  /** Whether they come from results of one phase, and a sample taken then belongs to it. */
  boolean isFromPhaseOf(Instant sampledAt, Phases phases) {
    return baseline != null
        && !phases.separate(baseline.from(), baseline.to())
        && !phases.separate(baseline.to(), sampledAt);
  }

  /** The same with more to be done; without a baseline there is nobody to tell. */
  LimitsRevision advising(String further) {
    return new LimitsRevision(
        revision,
        status,
        origin,
        effectiveFrom,
        adoptedAt,
        baseline,
        plotting,
        subgroupSize,
        limits,
        dispersion,
        detectors,
        reason,
        excluded,
        diagnostics == null ? null : diagnostics.advising(further),
        reestimateAt);
  }

  /** Whether they know how far values scatter within a subgroup. */
  boolean isOfSubgroups() {
    return subgroupSize > 1;
  }

  /** What of a result is judged. */
  Subgroup values(ChartedResult result) {
    return result.values(isOfSubgroups());
  }

  /** The limits of results of as many values as this one. */
  ControlLimits limitsFor(ChartedResult result) {
    return limits.ofMeans(values(result).size());
  }

  /** A result on the scale of the limits, as it is judged by them. */
  double judged(ChartedResult result) {
    return plotting.judged(values(result), limitsFor(result));
  }

  /** The limits of results of the usual number of values. */
  public ControlLimits usualLimits() {
    return limits.ofMeans(subgroupSize);
  }

  /**
   * The limits of what shows how far results of the usual number of values scatter: of moving
   * ranges for single results, of ranges where sigma was estimated by them, and of standard
   * deviations.
   */
  public Spread.Limits usualSpread() {
    boolean byRange = !isOfSubgroups() || dispersion == Dispersion.RANGE;
    Spread spread = byRange ? Spread.RANGE : Spread.STANDARD_DEVIATION;
    return spread.limits(limits.sigma(), Math.max(2, subgroupSize));
  }

  /** A figure on the scale of the limits in the unit of the results; null for none. */
  public @Nullable Double shown(@Nullable Double y) {
    return plotting.shown(y);
  }

  /**
   * Whether these limits judge a sample taken then, unless a later revision does. Trial limits
   * judge their own phase only.
   */
  boolean covers(Instant sampledAt, Phases phases) {
    return (effectiveFrom == null || !sampledAt.isBefore(effectiveFrom))
        && (isAdopted() || isFromPhaseOf(sampledAt, phases));
  }
}
