package org.sapotrace.monitoring;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.StartUp;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Stream;

/**
 * How a result looks that no limits judge yet: beside the results before it that none judge either.
 * No signal comes of it, since a few results tell little.
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
   * @return by result; none for a point that was judged, for the first two that were not, and for
   *     one that has no place on a logarithmic scale
   */
  static Map<UUID, FirstWatch> of(Stream stream, List<JudgedPoint> points) {
    Plotting plotting = stream.chart().scale() == Scale.LOG ? Plotting.LOG : Plotting.LINEAR;
    Map<UUID, FirstWatch> watches = new LinkedHashMap<>();
    for (int i = 0; i < points.size(); i++) {
      FirstWatch watch = at(stream, points, i, plotting);
      if (watch != null) {
        watches.put(points.get(i).point().result().result(), watch);
      }
    }
    return watches;
  }

  private static @Nullable FirstWatch at(
      Stream stream, List<JudgedPoint> points, int i, Plotting plotting) {
    double value = points.get(i).point().result().value();
    if (points.get(i).judgement() != null || !plotting.takes(value)) {
      return null;
    }
    int first = i;
    while (first > Math.max(0, i - LOOK_BACK) && points.get(first - 1).judgement() == null) {
      first--;
    }
    StartUp before = StartUp.START;
    for (JudgedPoint earlier : points.subList(first, i)) {
      double x = earlier.point().result().value();
      before = plotting.takes(x) ? before.next(plotting.plotted(x)) : before;
    }
    double q = before.q(plotting.plotted(value));
    return Double.isNaN(q)
        ? null
        : new FirstWatch(q, Math.abs(q) > LIMIT, text(stream, value, q, before));
  }

  private static String text(Stream stream, double value, double q, StartUp before) {
    return "First watch, before there are limits: %s lies %s standard deviations %s what the %d results before it lead to expect."
        .formatted(
            stream.withUnit(Rounding.of(value)),
            Rounding.of(Math.abs(q)),
            q < 0 ? "below" : "above",
            before.count());
  }
}
