package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.Stream;

/** Charts results, has them judged, and tells where each stands. */
@ApplicationScoped
@Transactional
public class Monitoring {

  private static final String LATE = "a result sampled earlier was recorded later";

  private final Points points;
  private final Judgements judgements;
  private final LimitsRevisions limitsRevisions;
  private final Regimes regimes;
  private final Signals signals;
  private final Judge judge;
  private final LimitsFactory factory;
  private final PlannedEstimates plannedEstimates;
  private final InstantSource clock;

  Monitoring(
      Points points,
      Judgements judgements,
      LimitsRevisions limitsRevisions,
      Regimes regimes,
      Signals signals,
      Judge judge,
      LimitsFactory factory,
      PlannedEstimates plannedEstimates,
      InstantSource clock) {
    this.points = points;
    this.judgements = judgements;
    this.limitsRevisions = limitsRevisions;
    this.regimes = regimes;
    this.signals = signals;
    this.judge = judge;
    this.factory = factory;
    this.plannedEstimates = plannedEstimates;
    this.clock = clock;
  }

  /**
   * Charts a new result, whether it comes in the order of sampling or late. The caller holds the
   * stream's lock.
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public Control chart(Stream stream, ChartedResult result) {
    chart(stream, result, Hindsight.NONE);
    return control(stream, result.result());
  }

  private void chart(Stream stream, ChartedResult result, Hindsight hindsight) {
    Point point = points.add(stream.id(), result);
    Optional<LimitsRevision> trial =
        factory.trial(stream, regimes.of(stream), result.sampledAt(), clock.instant());
    if (trial.isPresent()) {
      limitsRevisions.add(stream.id(), trial.get());
      Point first = points.firstSince(stream.id(), trial.get().effectiveFrom()).orElseThrow();
      judge.lookBack(stream, first, "trial limits were laid down");
    } else {
      judge.judgeFrom(stream, point, LATE, hindsight);
    }
    carryOutPlan(stream, point, hindsight);
  }

  private void carryOutPlan(Stream stream, Point recorded, Hindsight hindsight) {
    plannedEstimates
        .of(stream, regimes.of(stream), clock.instant())
        .ifPresent(
            planned -> {
              limitsRevisions.add(stream.id(), planned);
              String reason =
                  "limits were estimated once more from %d results, as planned"
                      .formatted(Objects.requireNonNull(planned.baseline()).n());
              points
                  .firstSince(stream.id(), planned.effectiveFrom())
                  .ifPresent(first -> judge.lookBack(stream, first, reason, recorded, hindsight));
            });
  }

  /**
   * Charts new results of one stream, judging them together. They end as they would one by one in
   * that order. The caller holds the stream's lock.
   *
   * @param results in the order of sampling
   * @param hindsight of which of them nobody is told
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public void chartAll(Stream stream, List<ChartedResult> results, Hindsight hindsight) {
    Regime regime = regimes.of(stream);
    List<ChartedResult> together = new ArrayList<>();
    for (ChartedResult result : results) {
      if (regime.awaitsTrial(result.sampledAt()) || regime.hasPlan()) {
        // Limits come from the first results that suffice, so these are looked at singly.
        chartTogether(stream, together, hindsight);
        chart(stream, result, hindsight);
        regime = regimes.of(stream);
      } else {
        together.add(result);
      }
    }
    chartTogether(stream, together, hindsight);
  }

  private void chartTogether(Stream stream, List<ChartedResult> some, Hindsight hindsight) {
    if (!some.isEmpty()) {
      judge.judgeFrom(stream, points.addAll(stream.id(), some), LATE, hindsight);
      some.clear();
    }
  }

  /** Charts a result anew that was corrected. The caller holds the stream's lock. */
  @Transactional(Transactional.TxType.MANDATORY)
  public Control correct(Stream stream, ChartedResult corrected, String reason) {
    Point old = pointOf(stream, corrected.result());
    if (old.result().sampledAt().equals(corrected.sampledAt())) {
      Point again = new Point(old.position(), corrected);
      points.replace(stream.id(), again);
      judge.judgeFrom(stream, again, reason);
    } else {
      points.remove(stream.id(), old);
      Point moved = points.add(stream.id(), corrected);
      Place since = old.place().isBefore(moved.place()) ? old.place() : moved.place();
      judge.judgeFrom(stream, Math.min(old.position(), moved.position()), since, reason);
    }
    return control(stream, corrected.result());
  }

  /**
   * Charts results of one stream anew that were found otherwise, sampled when they were, judging
   * them together. The caller holds the stream's lock.
   *
   * @param results in any order
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public void correctAll(Stream stream, List<ChartedResult> results, String reason) {
    List<Point> again =
        results.stream()
            .map(result -> new Point(pointOf(stream, result.result()).position(), result))
            .toList();
    again.forEach(point -> points.replace(stream.id(), point));
    again.stream()
        .min(Comparator.comparing(Point::position))
        .ifPresent(first -> judge.judgeFrom(stream, first, reason));
  }

  /** Takes a result off its chart. The caller holds the stream's lock. */
  @Transactional(Transactional.TxType.MANDATORY)
  public void withdraw(Stream stream, UUID result, String reason) {
    Point point = pointOf(stream, result);
    points.remove(stream.id(), point);
    judge.judgeFrom(stream, point.position(), point.place(), reason);
  }

  /** Where a result stands on its chart now. */
  public Control control(Stream stream, UUID result) {
    return Optional.ofNullable(controls(stream, List.of(result)).get(result)).orElseThrow();
  }

  /** Where each of some results of a stream stands on its chart now; none for withdrawn ones. */
  public Map<UUID, Control> controls(Stream stream, List<UUID> results) {
    List<JudgedPoint> judged = judgements.ofResults(stream.id(), results);
    if (judged.isEmpty()) {
      return Map.of();
    }
    List<LimitsRevision> revisions = limitsRevisions.of(stream.id());
    List<Signal> live = signals.liveSince(stream.id(), judged.get(0).point().result().sampledAt());
    Map<UUID, FirstWatch> watches = firstWatches(stream, judged);
    Map<UUID, Control> controls = new LinkedHashMap<>();
    for (JudgedPoint point : judged) {
      UUID result = point.point().result().result();
      controls.put(result, control(point, revisions, live, watches.get(result)));
    }
    return controls;
  }

  /** What is said of those among some points, in order, that no limits judge yet. */
  private Map<UUID, FirstWatch> firstWatches(Stream stream, List<JudgedPoint> some) {
    List<Integer> unjudged =
        some.stream()
            .filter(point -> point.judgement() == null)
            .map(point -> point.point().position())
            .toList();
    if (unjudged.isEmpty()) {
      return Map.of();
    }
    int first = Math.max(1, unjudged.get(0) - FirstWatch.LOOK_BACK);
    int last = unjudged.get(unjudged.size() - 1);
    return FirstWatch.of(
        stream,
        judgements.judgedFrom(stream.id(), first, last - first + 1),
        regimes.of(stream).phases());
  }

  private static Control control(
      JudgedPoint judged,
      List<LimitsRevision> revisions,
      List<Signal> live,
      @Nullable FirstWatch watch) {
    Point point = judged.point();
    Judgement judgement = judged.judgement();
    LimitsRevision limits =
        judgement == null ? null : revisions.get(judgement.limitsRevision() - 1);
    List<Signal> holding = live.stream().filter(signal -> signal.covers(point.place())).toList();
    return new Control(
        point.position(),
        limits,
        limits == null ? null : limits.limitsFor(point.result()),
        judgement == null ? null : judgement.state(),
        holding,
        watch);
  }

  private Point pointOf(Stream stream, UUID result) {
    return points.ofResult(stream.id(), result).orElseThrow();
  }
}
