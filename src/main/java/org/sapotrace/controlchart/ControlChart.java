package org.sapotrace.controlchart;

import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One control chart as data: everything that a picture of it says, and nothing about how it is
 * drawn.
 *
 * @param kind which statistic is charted
 * @param headline what the chart shows, as a sentence; also the picture's text alternative
 * @param line the name of the product line; null for a stream under no line
 * @param stream the name of the stream
 * @param quantity what is measured, such as {@code soap}
 * @param unit the unit of the values in UCUM code, such as {@code mg/kg}
 * @param scale on which the results are judged; what is drawn is in the unit of the results
 * @param limitsRevision the revision of the limits in force at the last point; null before there
 *     are any
 * @param limitsStatus {@code trial} or {@code adopted}; null before there are any limits
 * @param detectors what raises signals
 * @param specification what the product must meet; null for none, and always null on a chart of
 *     another statistic than the results
 * @param points the results in order of time
 * @param withdrawn results that no longer count, in order of time; only on a chart of the results
 * @param events in order of time, within the period of the chart
 * @param changes behind the signals, in order of time
 */
public record ControlChart(
    Kind kind,
    String headline,
    @Nullable String line,
    String stream,
    String quantity,
    String unit,
    Scale scale,
    @Nullable Integer limitsRevision,
    @Nullable String limitsStatus,
    Detectors detectors,
    @Nullable Specification specification,
    List<Point> points,
    List<Withdrawn> withdrawn,
    List<Event> events,
    List<Change> changes) {

  /** The statistic that a chart shows. */
  public enum Kind {
    /** Each result. */
    INDIVIDUALS("individuals", "Individuals"),
    /** The absolute difference between one result and the one before it. */
    MOVING_RANGE("moving-range", "Moving range"),
    /** The exponentially weighted moving average. */
    EWMA("ewma", "EWMA"),
    /** The cumulative sums upwards and downwards, in standard deviations. */
    CUSUM("cusum", "CUSUM");

    private final String id;
    private final String label;

    Kind(String id, String label) {
      this.id = id;
      this.label = label;
    }

    /** The name in the interface, such as {@code moving-range}. */
    public String id() {
      return id;
    }

    /** Whether what it shows gathers many results, so that no mark stands for one alone. */
    public boolean gathers() {
      return this == EWMA || this == CUSUM;
    }

    /** The name for people, such as {@code Moving range}. */
    public String label() {
      return label;
    }
  }

  /**
   * Specification limits: what the product must meet. Not control limits, which come from the
   * process.
   *
   * @param lower the lower limit; null for none
   * @param upper the upper limit; null for none
   * @param since when they came into force; null where they held at every point of the chart
   */
  public record Specification(
      @Nullable Double lower, @Nullable Double upper, @Nullable Instant since) {}

  /** A result that was taken back and judged by nobody. */
  public record Withdrawn(Instant at, double value) {}

  /**
   * Something that happened at the plant and may show in the results.
   *
   * @param kind in the interface's words, such as {@code media-change}
   * @param note what was done; null for none
   */
  public record Event(Instant at, String kind, @Nullable String note) {}

  /**
   * Where the change behind signals is estimated to have begun; it may lie before the first point.
   *
   * @param at the first sample behind the change
   * @param earliest the first sample that may have been; null where {@code at} is no estimate
   * @param latest the last sample that may have been; null where {@code at} is no estimate
   * @param label what to call it, such as {@code change about 14 Mar}
   * @param finding the cause that somebody found; null for none
   */
  public record Change(
      Instant at,
      @Nullable Instant earliest,
      @Nullable Instant latest,
      String label,
      @Nullable String finding) {}

  /**
   * One result on the chart.
   *
   * @param result its identifier
   * @param batch the batch it was found in
   * @param at when the sample was taken
   * @param value the result
   * @param plotted the statistic that is drawn; NaN where there is none, such as the first moving
   *     range of a phase
   * @param onScale the same on the scale on which it is judged; NaN where there is none, and for a
   *     result that has no place on the scale
   * @param below a second statistic that is drawn below zero, the downward cumulative sum with a
   *     minus sign; NaN where there is none
   * @param standardUncertainty of the statistic that is drawn, in its unit; null where unknown
   * @param belowDetection whether the sample took no more titrant than the blank
   * @param limitsRevision the revision of the limits it was judged by; null for none. A new
   *     revision begins a new phase.
   * @param centre the centre line at this point; null before there are limits
   * @param upper the upper control limit; null for none
   * @param lower the lower control limit; null for none, as for a quantity that cannot be negative
   *     when the limit would be at or below zero
   * @param z distance of the value from the centre in standard deviations; null without limits
   * @param signals the rules whose condition holds at this point
   */
  public record Point(
      String result,
      String batch,
      Instant at,
      double value,
      double plotted,
      double onScale,
      double below,
      @Nullable Double standardUncertainty,
      boolean belowDetection,
      @Nullable Integer limitsRevision,
      @Nullable Double centre,
      @Nullable Double upper,
      @Nullable Double lower,
      @Nullable Double z,
      Set<SignalRule> signals) {}
}
