package org.sapotrace.monitoring;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
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
import org.sapotrace.controlchart.Spread;
import org.sapotrace.controlchart.Subgroup;

/** Works out the points of a picture from what there is to draw of a stream. */
final class ChartPoints {

  private final Chart chart;

  ChartPoints(Chart chart) {
    this.chart = chart;
  }

  List<ControlChart.Point> of(ControlChart.Kind kind) {
    if (kind == ControlChart.Kind.MOVING_RANGE) {
      return movingRanges();
    }
    Function<JudgedPoint, Drawn> drawn =
        switch (kind) {
          case RANGE -> judged -> spread(judged, Spread.RANGE);
          case STANDARD_DEVIATION -> judged -> spread(judged, Spread.STANDARD_DEVIATION);
          case EWMA -> this::ewma;
          case CUSUM -> this::cusum;
          default -> this::result;
        };
    return chart.points().stream().map(judged -> point(judged, drawn.apply(judged))).toList();
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

  /** What of a result is judged; before there are limits, what the stream's own would look at. */
  private Subgroup values(JudgedPoint judged) {
    ChartedResult result = judged.point().result();
    LimitsRevision revision = revision(judged);
    return revision == null
        ? result.values(chart.stream().chart().isOfSubgroups())
        : revision.values(result);
  }

  /** A result on its scale; NaN where it has no place there. */
  private double onScale(JudgedPoint judged) {
    Subgroup values = values(judged);
    return plotting(judged).takes(values) ? plotting(judged).plotted(values).mean() : Double.NaN;
  }

  /** A result on its scale as it is judged there. */
  private double judged(JudgedPoint judged) {
    LimitsRevision revision = revision(judged);
    return revision == null ? onScale(judged) : revision.judged(judged.point().result());
  }

  /** A result, or the mean of a subgroup. */
  private Drawn result(JudgedPoint judged) {
    ChartedResult result = judged.point().result();
    LimitsRevision revision = revision(judged);
    ControlLimits own = revision == null ? null : revision.limitsFor(result);
    return new Drawn(
        plotting(judged).shownMean(values(judged)),
        onScale(judged),
        Double.NaN,
        result.standardUncertainty(),
        revision == null || own == null ? null : revision.shown(own.centre()),
        revision == null || own == null ? null : revision.shown(own.upper()),
        revision == null || own == null ? null : revision.shown(own.lower()),
        judged.judgement() == null ? Set.of() : judged.judgement().rules());
  }

  /**
   * How far the values of a subgroup scatter, on their scale. Limits of single results know nothing
   * of it.
   */
  private Drawn spread(JudgedPoint judged, Spread spread) {
    Subgroup values = judged.point().result().values();
    LimitsRevision revision = revision(judged);
    boolean hasLimits =
        revision != null && revision.isOfSubgroups() && spread.hasLimits(values.size());
    return Drawn.ofSpread(
        plotting(judged).takes(values) ? spread.of(plotting(judged).plotted(values)) : Double.NaN,
        revision == null || !hasLimits
            ? null
            : spread.limits(revision.limits().sigma(), values.size()));
  }

  /** A range reaches from one result to the next, but not over the border of a phase. */
  private List<ControlChart.Point> movingRanges() {
    List<ControlChart.Point> ranges = new ArrayList<>();
    JudgedPoint before = chart.before();
    for (JudgedPoint judged : chart.points()) {
      LimitsRevision revision = revision(judged);
      double range =
          before != null
                  && Objects.equals(revision(before), revision)
                  && !chart.phases().separate(before.point(), judged.point())
              ? Math.abs(judged(judged) - judged(before))
              : Double.NaN;
      Spread.Limits limits =
          revision == null ? null : Spread.RANGE.limits(revision.limits().sigma(), 2);
      ranges.add(point(judged, Drawn.ofSpread(range, limits)));
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
        chart.stream().chart().isOfSubgroups() ? (Integer) result.values().size() : null,
        drawn.plotted(),
        drawn.onScale(),
        drawn.below(),
        drawn.standardUncertainty(),
        result.belowDetection(),
        revision == null ? null : (Integer) revision.revision(),
        drawn.centre(),
        drawn.upper(),
        drawn.lower(),
        revision == null || !revision.plotting().takes(revision.values(result))
            ? null
            : (Double) revision.limitsFor(result).z(revision.judged(result)),
        drawn.signals());
  }
}
