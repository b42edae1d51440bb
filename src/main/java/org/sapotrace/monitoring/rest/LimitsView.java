package org.sapotrace.monitoring.rest;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.monitoring.BaselineDiagnostics;
import org.sapotrace.monitoring.Exclusion;
import org.sapotrace.monitoring.LimitsRevision;

/** Limits as they are answered; null stands for a limit that is none and for what is off. */
record LimitsView(
    int revision,
    LimitsRevision.Status status,
    LimitsRevision.Origin origin,
    @Nullable Integer n,
    @Nullable Double centre,
    double sigma,
    @Nullable Double upper,
    @Nullable Double lower,
    Zones zones,
    double dispersionCentre,
    double dispersionUpper,
    @Nullable Double dispersionLower,
    @Nullable Dispersion dispersion,
    Scale scale,
    @Nullable Double boxCoxLambda,
    List<RunRule> rules,
    @Nullable Ewma ewma,
    @Nullable Cusum cusum,
    @Nullable Baseline baseline,
    @Nullable Instant effectiveFrom,
    Instant adoptedAt,
    @Nullable String reason,
    List<Exclusion> excluded,
    @Nullable BaselineDiagnostics diagnostics,
    List<Integer> reestimateAt) {

  /** The boundaries at one and two sigma. */
  record Zones(Zone oneSigma, Zone twoSigma) {}

  /** The boundaries on either side of the centre. */
  record Zone(@Nullable Double lower, @Nullable Double upper) {

    static Zone of(LimitsRevision revision, int k) {
      ControlLimits limits = revision.limits();
      return new Zone(revision.shown(limits.below(k)), revision.shown(limits.above(k)));
    }
  }

  /** When the first and the last sample of the baseline were taken. */
  record Baseline(Instant from, Instant to) {}

  static LimitsView of(LimitsRevision revision) {
    ControlLimits limits = revision.limits();
    LimitsRevision.Baseline baseline = revision.baseline();
    return new LimitsView(
        revision.revision(),
        revision.status(),
        revision.origin(),
        baseline == null ? null : (Integer) baseline.n(),
        revision.shown(limits.centre()),
        limits.sigma(),
        revision.shown(limits.upper()),
        revision.shown(limits.lower()),
        new Zones(Zone.of(revision, 1), Zone.of(revision, 2)),
        limits.dispersionCentre(),
        limits.dispersionUpper(),
        limits.dispersionLower(),
        revision.dispersion(),
        revision.plotting().scale(),
        revision.plotting().lambda(),
        List.copyOf(revision.detectors().rules()),
        revision.detectors().ewma(),
        revision.detectors().cusum(),
        baseline == null ? null : new Baseline(baseline.from(), baseline.to()),
        revision.effectiveFrom(),
        revision.adoptedAt(),
        revision.reason(),
        revision.excluded(),
        revision.diagnostics(),
        revision.reestimateAt());
  }
}
