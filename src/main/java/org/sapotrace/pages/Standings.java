package org.sapotrace.pages;

import jakarta.inject.Singleton;
import java.util.Comparator;
import java.util.List;
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

  StreamStanding of(String line, Stream stream) {
    Chart chart = charts.chart(stream, ShownChart.LATEST, null);
    List<JudgedPoint> points = chart.points();
    boolean isEmpty = points.isEmpty();
    StreamStanding standing =
        new StreamStanding(
            chart,
            isEmpty ? null : bench.result(points.get(points.size() - 1).point().result().result()),
            charts.latestSignals(stream, Signal.State.UNEXPLAINED, MOST_SIGNALS),
            null,
            isEmpty ? null : outlooks.of(line, stream.slug(), WashPlan.ONE_STAGE));
    return standing.movedBy(moved(standing));
  }

  private @Nullable AttributedShift moved(StreamStanding standing) {
    Measurand measurand = standing.stream().measurand();
    if (measurand != Measurand.SOAP && measurand != Measurand.REMOVAL) {
      return null;
    }
    return standing.pressing().stream()
        .filter(signal -> signal.finding() == null)
        .max(Comparator.comparing(Signal::raisedAt))
        .map(signal -> whatMoved.behind(signal.id()))
        .orElse(null);
  }
}
