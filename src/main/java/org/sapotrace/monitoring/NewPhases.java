package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.time.Instant;
import java.util.List;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.Stream;

/** Has a stream judged afresh from the beginning of a new phase. */
@ApplicationScoped
class NewPhases {

  private final Regimes regimes;
  private final LimitsRevisions limitsRevisions;
  private final LimitsFactory factory;
  private final Points points;
  private final Judge judge;

  NewPhases(
      Regimes regimes,
      LimitsRevisions limitsRevisions,
      LimitsFactory factory,
      Points points,
      Judge judge) {
    this.regimes = regimes;
    this.limitsRevisions = limitsRevisions;
    this.factory = factory;
    this.points = points;
    this.judge = judge;
  }

  void begin(@Observes Logbook.PhaseBegun begun) {
    Stream stream = begun.stream();
    Regime regime = regimes.of(stream);
    LaidDownAgain.inNewPhase(regime, begun.at(), begun.recordedAt())
        .forEach(limits -> limitsRevisions.add(stream.id(), limits));
    // Trial limits from results behind the border judge what lies before it no more.
    Instant ended = begun.at().minusNanos(1);
    boolean before = regime.revisions().stream().anyMatch(limits -> limits.isTrialFrom(begun.at()));
    for (Instant phase : before ? List.of(ended, begun.at()) : List.of(begun.at())) {
      factory
          .trial(stream, regimes.of(stream), phase, begun.recordedAt())
          .ifPresent(limits -> limitsRevisions.add(stream.id(), limits));
    }
    points
        .firstSince(stream.id(), before ? regime.phases().beginning(ended) : begun.at())
        .ifPresent(point -> judge.lookBack(stream, point, "a new phase began"));
  }
}
