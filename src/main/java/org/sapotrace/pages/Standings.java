package org.sapotrace.pages;

import jakarta.inject.Singleton;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Bench;
import org.sapotrace.forecast.AttributedShift;
import org.sapotrace.forecast.Outlooks;
import org.sapotrace.forecast.WashPlan;
import org.sapotrace.forecast.WhatMoved;
import org.sapotrace.monitoring.Chart;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.JudgedPoint;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.Stream;

/** Asks the features how a stream stands. */
@Singleton
final class Standings {

  /** Whoever has left more signals without a finding is told of these, and that there are more. */
  static final int MOST_SIGNALS = 20;

  /** What moved takes a look at all that was titrated, so it is asked of so many streams. */
  private static final int MOST_ASKED = 6;

  private final Bench bench;
  private final Charts charts;
  private final Outlooks outlooks;
  private final WhatMoved whatMoved;

  Standings(Bench bench, Charts charts, Outlooks outlooks, WhatMoved whatMoved) {
    this.bench = bench;
    this.charts = charts;
    this.outlooks = outlooks;
    this.whatMoved = whatMoved;
  }

  /** How streams of a line stand, in their order; what moved is asked where it is most pressing. */
  List<StreamStanding> of(String line, List<Stream> streams) {
    List<StreamStanding> standing = streams.stream().map(each -> of(line, each)).toList();
    Set<Stream> pressing =
        standing.stream()
            .sorted(Comparator.comparing(each -> each.goingOn().isEmpty()))
            .filter(each -> signal(each).isPresent())
            .limit(MOST_ASKED)
            .map(StreamStanding::stream)
            .collect(Collectors.toSet());
    return standing.stream()
        .map(each -> pressing.contains(each.stream()) ? each.movedBy(moved(each)) : each)
        .toList();
  }

  private StreamStanding of(String line, Stream stream) {
    Chart chart = charts.chart(stream, ShownChart.LATEST, null);
    List<JudgedPoint> points = chart.points();
    boolean isEmpty = points.isEmpty();
    return new StreamStanding(
        chart,
        isEmpty ? null : bench.result(points.get(points.size() - 1).point().result().result()),
        charts.latestSignals(stream, Signal.State.UNEXPLAINED, MOST_SIGNALS),
        null,
        isEmpty ? null : outlooks.of(line, stream.slug(), WashPlan.ONE_STAGE));
  }

  private @Nullable AttributedShift moved(StreamStanding standing) {
    return signal(standing).map(signal -> whatMoved.behind(signal.id())).orElse(null);
  }

  /** The signal whose cause is asked for. */
  private static Optional<Signal> signal(StreamStanding standing) {
    Measurand measurand = standing.stream().measurand();
    return measurand != Measurand.SOAP && measurand != Measurand.REMOVAL
        ? Optional.empty()
        : standing.pressing().stream()
            .filter(signal -> signal.finding() == null)
            .max(Comparator.comparing(Signal::raisedAt));
  }
}
