package org.sapotrace.chartimage;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Kind;
import org.sapotrace.controlchart.ControlChart.Point;
import org.sapotrace.controlchart.ControlChart.Specification;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.SignalRule;

/** Builds charts of an invented plant. */
final class SampleChart {

  private final List<Point> points = new ArrayList<>();
  private final List<ControlChart.Withdrawn> withdrawn = new ArrayList<>();
  private final List<ControlChart.Event> events = new ArrayList<>();
  private final List<ControlChart.Change> changes = new ArrayList<>();
  private Kind kind = Kind.INDIVIDUALS;
  private String headline = "Soap after the tower, harbour line: in control since 2 March";
  private String line = "Harbour line";
  private String stream = "after the tower";
  private String unit = "mg/kg";
  private Scale scale = Scale.LINEAR;
  private Integer revision = 1;
  private String status = "adopted";
  private Double centre = 31.2;
  private Double upper = 43.0;
  private Double lower = 19.4;
  private Double standardUncertainty;
  private Specification specification = new Specification(null, 66.2, null);
  private Set<RunRule> rules =
      EnumSet.of(RunRule.BEYOND_LIMITS, RunRule.TWO_OF_THREE_BEYOND_2S, RunRule.SIX_TRENDING);
  private Ewma ewma;
  private Cusum cusum;
  private Instant next = Instant.parse("2026-03-02T06:00:00Z");
  private Duration step = Duration.ofHours(24);

  SampleChart kind(Kind value) {
    kind = value;
    specification = null;
    return this;
  }

  SampleChart headline(String value) {
    headline = value;
    return this;
  }

  SampleChart names(String lineName, String streamName) {
    line = lineName;
    stream = streamName;
    return this;
  }

  SampleChart unit(String value) {
    unit = value;
    return this;
  }

  SampleChart scale(Scale value) {
    scale = value;
    return this;
  }

  /** Limits for the points that follow. */
  SampleChart limits(Integer newRevision, String newStatus, Double low, Double mid, Double high) {
    revision = newRevision;
    status = newStatus;
    lower = low;
    centre = mid;
    upper = high;
    return this;
  }

  SampleChart noLimits() {
    return limits(null, null, null, null, null);
  }

  SampleChart specification(Double low, Double high) {
    specification = low == null && high == null ? null : new Specification(low, high, null);
    return this;
  }

  SampleChart rules(Set<RunRule> value) {
    rules = value;
    return this;
  }

  SampleChart from(String instant, Duration between) {
    next = Instant.parse(instant);
    step = between;
    return this;
  }

  SampleChart ewma(Ewma value) {
    ewma = value;
    return this;
  }

  SampleChart cusum(Cusum value) {
    cusum = value;
    return this;
  }

  SampleChart uncertainty(Double value) {
    standardUncertainty = value;
    return this;
  }

  SampleChart point(double value, SignalRule... signals) {
    return add(value, false, signals);
  }

  SampleChart belowDetection(double value) {
    return add(value, true);
  }

  /** A withdrawn result at the time of the next point. */
  SampleChart withdrawn(double value) {
    withdrawn.add(new ControlChart.Withdrawn(next, value));
    next = next.plus(step);
    return this;
  }

  SampleChart event(String at, String kind, String note) {
    events.add(new ControlChart.Event(Instant.parse(at + "T08:00:00Z"), kind, note));
    return this;
  }

  /** A change on a day, and the days between which it lies; null for no estimate. */
  SampleChart change(String at, String earliest, String latest, String label, String finding) {
    changes.add(
        new ControlChart.Change(
            sampled(at),
            earliest == null ? null : sampled(earliest),
            latest == null ? null : sampled(latest),
            label,
            finding));
    return this;
  }

  private static Instant sampled(String day) {
    return Instant.parse(day + "T06:00:00Z");
  }

  SampleChart points(double... values) {
    for (double value : values) {
      point(value);
    }
    return this;
  }

  /** Normal results, the same for the same seed. */
  SampleChart normal(int n, double mean, double deviation, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    for (int i = 0; i < n; i++) {
      point(mean + deviation * random.nextGaussian());
    }
    return this;
  }

  /** Results gathered into a moving average or cumulative sums, as they are judged. */
  SampleChart gathered(ControlLimits limits, double... values) {
    Detectors detectors = new Detectors(Set.of(), ewma, cusum);
    ChartState state = ChartState.START;
    for (double value : values) {
      state = state.next(value, limits, detectors);
      SignalRule[] signals = state.holding(limits, detectors).toArray(SignalRule[]::new);
      if (kind == Kind.EWMA) {
        Ewma.Limits exact = ewma.limits(limits, state.ewma());
        limits(revision, status, exact.lower(), exact.centre(), exact.upper());
        add(state.ewma().average(), Double.NaN, false, signals);
      } else {
        limits(revision, status, -cusum.decision(), 0.0, cusum.decision());
        add(state.cusum().high().value(), -state.cusum().low().value(), false, signals);
      }
    }
    return this;
  }

  private SampleChart add(double value, boolean belowDetection, SignalRule... signals) {
    return add(value, Double.NaN, belowDetection, signals);
  }

  private SampleChart add(
      double value, double below, boolean belowDetection, SignalRule... signals) {
    Set<SignalRule> set = new LinkedHashSet<>(SignalRule.ALL);
    set.retainAll(List.of(signals));
    Double z = centre == null || upper == null ? null : 3 * (value - centre) / (upper - centre);
    String id = "R" + points.size();
    points.add(
        new Point(
            id,
            "B" + points.size(),
            next,
            value,
            value,
            scale == Scale.LINEAR || value > 0 ? value : Double.NaN,
            below,
            standardUncertainty,
            belowDetection,
            revision,
            centre,
            upper,
            lower,
            z,
            set));
    next = next.plus(step);
    return this;
  }

  ControlChart build() {
    return new ControlChart(
        kind,
        headline,
        line,
        stream,
        "soap",
        unit,
        scale,
        revision,
        status,
        new Detectors(rules, ewma, cusum),
        specification,
        List.copyOf(points),
        List.copyOf(withdrawn),
        List.copyOf(events),
        List.copyOf(changes));
  }
}
