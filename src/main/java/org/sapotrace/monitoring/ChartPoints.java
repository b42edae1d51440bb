package org.sapotrace.monitoring;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.CusumState;
import org.sapotrace.controlchart.DriftRule;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.EwmaState;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.SignalRule;

/** Works out the points of a picture from what there is to draw of a stream. */
final class ChartPoints {

  /** What is drawn at one result, and what it is judged by; NaN and null for what there is not. */
  private record Drawn(
      double plotted,
      double onScale,
      double below,
      @Nullable Double standardUncertainty,
      @Nullable Double centre,
      @Nullable Double upper,
      @Nullable Double lower,
      Set<SignalRule> signals) {

    static final Drawn NOTHING =
        new Drawn(Double.NaN, Double.NaN, Double.NaN, null, null, null, null, Set.of());
  }

  private final Chart chart;

  ChartPoints(Chart chart) {
    this.chart = chart;
  }

  List<ControlChart.Point> of(ControlChart.Kind kind) {
    return switch (kind) {
      case INDIVIDUALS -> chart.points().stream().map(p -> point(p, individual(p))).toList();
      case MOVING_RANGE -> movingRanges();
      case EWMA -> chart.points().stream().map(p -> point(p, ewma(p))).toList();
      case CUSUM -> chart.points().stream().map(p -> point(p, cusum(p))).toList();
    };
  }

  /** The limits that a point was judged by; null for none. */
  @Nullable LimitsRevision revision(JudgedPoint judged) {
    Judgement judgement = judged.judgement();
    return judgement == null ? null : chart.limits().get(judgement.limitsRevision() - 1);
  }

  /** On which scale a point stands; before there are limits, on one that needs none. */
  private Plotting plotting(JudgedPoint judged) {
    LimitsRevision revision = revision(judged);
    if (revision != null) {
      return revision.plotting();
    }
    return chart.stream().chart().scale() == Scale.LOG ? Plotting.LOG : Plotting.LINEAR;
  }

  /** A result on its scale; NaN where it has no place there. */
  private double onScale(JudgedPoint judged) {
    double value = judged.point().result().value();
    return plotting(judged).takes(value) ? plotting(judged).plotted(value) : Double.NaN;
  }

  /** A result on its scale as it is judged there. */
  private double judged(JudgedPoint judged) {
    LimitsRevision revision = revision(judged);
    return revision == null ? onScale(judged) : revision.judged(judged.point().result().value());
  }

  private Drawn individual(JudgedPoint judged) {
    ChartedResult result = judged.point().result();
    LimitsRevision revision = revision(judged);
    return new Drawn(
        result.value(),
        onScale(judged),
        Double.NaN,
        result.standardUncertainty(),
        revision == null ? null : revision.shown(revision.limits().centre()),
        revision == null ? null : revision.shown(revision.limits().upper()),
        revision == null ? null : revision.shown(revision.limits().lower()),
        judged.judgement() == null ? Set.of() : judged.judgement().rules());
  }

  /** A range reaches from one result to the next, but not over the border of a phase. */
  private List<ControlChart.Point> movingRanges() {
    List<ControlChart.Point> ranges = new ArrayList<>();
    JudgedPoint before = chart.before();
    for (JudgedPoint judged : chart.points()) {
      LimitsRevision revision = revision(judged);
      ControlLimits limits = revision == null ? null : revision.limits();
      double range =
          before != null
                  && Objects.equals(revision(before), revision)
                  && !chart.phases().separate(before.point(), judged.point())
              ? Math.abs(judged(judged) - judged(before))
              : Double.NaN;
      Drawn drawn =
          new Drawn(
              range,
              range,
              Double.NaN,
              null,
              limits == null ? null : limits.dispersionCentre(),
              limits == null ? null : limits.dispersionUpper(),
              limits == null ? null : limits.dispersionLower(),
              Set.of());
      ranges.add(point(judged, drawn));
      before = judged;
    }
    return ranges;
  }

  private Drawn ewma(JudgedPoint judged) {
    LimitsRevision revision = revision(judged);
    Ewma ewma = revision == null ? null : revision.detectors().ewma();
    EwmaState state = judged.judgement() == null ? null : judged.judgement().state().ewma();
    if (revision == null || ewma == null || state == null) {
      return Drawn.NOTHING;
    }
    Ewma.Limits limits = ewma.limits(revision.limits(), state);
    Double shown = revision.shown(state.average());
    return new Drawn(
        shown == null ? Double.NaN : shown,
        state.average(),
        Double.NaN,
        null,
        revision.shown(limits.centre()),
        revision.shown(limits.upper()),
        revision.shown(limits.lower()),
        signals(judged, Set.of(DriftRule.EWMA_BEYOND_LIMITS)));
  }

  /** Both sums in standard deviations, the downward one below zero. */
  private Drawn cusum(JudgedPoint judged) {
    LimitsRevision revision = revision(judged);
    Cusum cusum = revision == null ? null : revision.detectors().cusum();
    CusumState state = judged.judgement() == null ? null : judged.judgement().state().cusum();
    if (cusum == null || state == null) {
      return Drawn.NOTHING;
    }
    return new Drawn(
        state.high().value(),
        Double.NaN,
        0 - state.low().value(),
        null,
        0.0,
        cusum.decision(),
        -cusum.decision(),
        signals(judged, Set.of(DriftRule.CUSUM_HIGH, DriftRule.CUSUM_LOW)));
  }

  /** The rules of one statistic that hold at a point. */
  private static Set<SignalRule> signals(JudgedPoint judged, Set<DriftRule> own) {
    Set<SignalRule> signals = new LinkedHashSet<>();
    if (judged.judgement() != null) {
      judged.judgement().rules().stream().filter(own::contains).forEach(signals::add);
    }
    return signals;
  }

  private ControlChart.Point point(JudgedPoint judged, Drawn drawn) {
    ChartedResult result = judged.point().result();
    LimitsRevision revision = revision(judged);
    return new ControlChart.Point(
        result.result().toString(),
        result.batch(),
        result.sampledAt(),
        result.value(),
        drawn.plotted(),
        drawn.onScale(),
        drawn.below(),
        drawn.standardUncertainty(),
        result.belowDetection(),
        revision == null ? null : (Integer) revision.revision(),
        drawn.centre(),
        drawn.upper(),
        drawn.lower(),
        revision == null || !revision.plotting().takes(result.value())
            ? null
            : (Double) revision.limits().z(revision.judged(result.value())),
        drawn.signals());
  }
}
