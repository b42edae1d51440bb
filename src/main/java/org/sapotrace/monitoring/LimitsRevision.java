package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Plotting;

/**
 * Control limits and the rules that go with them, as they were laid down once; never changed.
 *
 * @param revision counting from 1 within the stream
 * @param effectiveFrom the first time of sampling that they judge, inclusive; null for the first
 *     result
 * @param adoptedAt when they were laid down
 * @param baseline the results they were computed from; null where they were given
 * @param plotting the scale on which results are judged
 * @param limits on that scale
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
    SETTINGS("settings");

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

  LimitsRevision withRevision(int number) {
    return new LimitsRevision(
        number,
        status,
        origin,
        effectiveFrom,
        adoptedAt,
        baseline,
        plotting,
        limits,
        dispersion,
        detectors,
        reason,
        excluded,
        diagnostics,
        reestimateAt);
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
        limits,
        dispersion,
        detectors,
        reason,
        excluded,
        diagnostics == null ? null : diagnostics.advising(further),
        reestimateAt);
  }

  /** A result on the scale of the limits, as it is judged by them. */
  double judged(double x) {
    return plotting.judged(x, limits);
  }

  /** A figure on the scale of the limits in the unit of the results; null for none. */
  public @Nullable Double shown(@Nullable Double y) {
    return plotting.shown(y);
  }

  /** Whether these limits judge a sample taken then, unless a later revision does. */
  boolean covers(Instant sampledAt) {
    return effectiveFrom == null || !sampledAt.isBefore(effectiveFrom);
  }
}
