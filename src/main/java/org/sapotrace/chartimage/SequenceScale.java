package org.sapotrace.chartimage;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.sapotrace.controlchart.ControlChart;

/** Results at even distances, in their order; what happened between two stands halfway. */
final class SequenceScale implements Abscissa {

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMM", Locale.ENGLISH).withZone(ZoneOffset.UTC);

  private final List<ControlChart.Point> points;
  private final Map<String, Integer> places = new HashMap<>();
  private final double width;
  private final double margin;

  /**
   * Numbers results from 1.
   *
   * @param points in order of time
   * @param width of the plot, px
   * @param margin kept free at either end, px
   */
  SequenceScale(List<ControlChart.Point> points, double width, double margin) {
    this.points = points;
    this.width = width;
    this.margin = margin;
    for (int i = 0; i < points.size(); i++) {
      places.put(points.get(i).result(), i);
    }
  }

  @Override
  public boolean isEmpty() {
    return points.isEmpty();
  }

  @Override
  public double x(ControlChart.Point point) {
    return at(places.getOrDefault(point.result(), 0));
  }

  @Override
  public double x(Instant at) {
    int next = 0;
    while (next < points.size() && points.get(next).at().isBefore(at)) {
      next++;
    }
    boolean sampledThen = next < points.size() && points.get(next).at().equals(at);
    return Math.max(0, Math.min(width, at(sampledThen ? next : next - 0.5)));
  }

  private double at(double place) {
    return points.size() < 2
        ? width / 2 + (place == 0 ? 0 : Math.signum(place) * width / 2)
        : margin + place / (points.size() - 1) * (width - 2 * margin);
  }

  @Override
  public List<Tick> ticks(double spacing) {
    double least = points.size() < 2 ? 1 : spacing / (at(1) - at(0));
    int decade = 1;
    while (5.0 * decade < least) {
      decade *= 10;
    }
    int step = decade >= least ? decade : 2 * decade >= least ? 2 * decade : 5 * decade;
    List<Tick> ticks = new ArrayList<>();
    for (int number = step; number <= points.size(); number += step) {
      String day = DAY.format(points.get(number - 1).at());
      ticks.add(new Tick(at(number - 1.0), String.valueOf(number), day));
    }
    return ticks;
  }
}
