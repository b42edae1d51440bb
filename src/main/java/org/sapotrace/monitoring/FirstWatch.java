package org.sapotrace.monitoring;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.StartUp;
import org.sapotrace.controlchart.Subgroup;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Stream;

/**
 * How a result looks that no limits judge yet: beside the results before it that none judge either,
 * means beside those of as many values. No signal comes of it, since a few results tell little.
 *
 * @param q Quesenberry's statistic, a unit normal deviate while the process is in control
 * @param unusual whether it lies beyond ±3
 * @param text what that means, in a sentence
 */
public record FirstWatch(double q, boolean unusual, String text) {

  /** So many results before it are looked at; limits come long before, as a rule. */
  static final int LOOK_BACK = 100;

  private static final double LIMIT = 3;

  /**
   * What may be said of the points of a stream.
   *
   * @param points in order without a gap; to say it of one takes the {@value #LOOK_BACK} before it
   * @param phases no point is looked at beside those of another
   * @return by result; none for a point that was judged, for the first two that were not, and for
   *     one that has no place on a logarithmic scale
   */
  static Map<UUID, FirstWatch> of(Stream stream, List<JudgedPoint> points, Phases phases) {
    Plotting plotting = stream.chart().scale() == Scale.LOG ? Plotting.LOG : Plotting.LINEAR;
    Map<UUID, FirstWatch> watches = new LinkedHashMap<>();
    for (int i = 0; i < points.size(); i++) {
      FirstWatch watch = at(stream, points, i, plotting, phases);
      if (watch != null) {
        watches.put(points.get(i).point().result().result(), watch);
      }
    }
    return watches;
  }

  private static @Nullable FirstWatch at(
      Stream stream, List<JudgedPoint> points, int i, Plotting plotting, Phases phases) {
    Subgroup values = values(stream, points.get(i));
    if (points.get(i).judgement() != null || !plotting.takes(values)) {
      return null;
    }
    int first = i;
    while (first > Math.max(0, i - LOOK_BACK)
        && points.get(first - 1).judgement() == null
        && !phases.separate(points.get(first - 1).point(), points.get(i).point())) {
      first--;
    }
    StartUp before = StartUp.START;
    for (JudgedPoint earlier : points.subList(first, i)) {
      Subgroup others = values(stream, earlier);
      // Means of other numbers of values scatter otherwise.
      boolean compares = others.size() == values.size() && plotting.takes(others);
      before = compares ? before.next(plotting.plotted(others).mean()) : before;
    }
    double q = before.q(plotting.plotted(values).mean());
    double shown = plotting.shownMean(values);
    return Double.isNaN(q)
        ? null
        : new FirstWatch(q, Math.abs(q) > LIMIT, text(stream, shown, q, before));
  }

  private static Subgroup values(Stream stream, JudgedPoint judged) {
    return judged.point().result().values(stream.chart().isOfSubgroups());
  }

  private static String text(Stream stream, double value, double q, StartUp before) {
    return "First watch, before there are limits: %s lies %s standard deviations %s what the %d %s before it lead to expect."
        .formatted(
            stream.withUnit(Rounding.of(value)),
            Rounding.of(Math.abs(q)),
            q < 0 ? "below" : "above",
            before.count(),
            stream.chart().isOfSubgroups() ? "results of its size" : "results");
  }
}
