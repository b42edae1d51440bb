package org.sapotrace.forecast;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Evidence;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.attribution.Evidence.Place;

/**
 * Results of one stream around a change, on the scale on which shifts add up.
 *
 * @param window the time looked at
 * @param points in order of time
 * @param blankEffect how much the value moves for each mL of blank, see {@link Evidence}
 */
record Series(Kind kind, Window window, List<Point> points, double blankEffect) {

  /**
   * The time looked at.
   *
   * @param from its beginning
   * @param change when the change is estimated to have begun
   * @param end after which nothing counts; null for no end
   */
  record Window(Instant from, Instant change, @Nullable Instant end) {

    boolean isNotOver(Instant at) {
      return end == null || !at.isAfter(end);
    }
  }

  /**
   * A result.
   *
   * @param value on the scale
   * @param repeatability standard deviation on the scale by which it would differ if it were
   *     measured again; NaN where unknown
   * @param titrants as in {@link Evidence.Result}
   */
  record Point(Instant at, double value, double repeatability, Map<String, Integer> titrants) {}

  /** How many lie before the change. */
  int before() {
    return (int) points.stream().filter(point -> point.at().isBefore(window.change())).count();
  }

  /** Whether it tells what changed: there are results before the change and behind it. */
  boolean isOnBothSides() {
    return before() > 0 && before() < points.size();
  }

  /** How far a single result differs by measuring alone; 0 where it is unknown. */
  double measurement() {
    return points.stream()
        .mapToDouble(Point::repeatability)
        .filter(u -> !Double.isNaN(u))
        .average()
        .orElse(0);
  }

  /** As evidence; empty where nobody knows how widely it scatters. */
  Optional<Evidence> evidence(Place place) {
    double sigma = Math.max(scatter(), measurement());
    if (points.isEmpty() || !(sigma > 0)) {
      return Optional.empty();
    }
    List<Evidence.Result> results =
        points.stream()
            .map(
                point ->
                    new Evidence.Result(
                        Gathered.day(window.from(), point.at()), point.value(), point.titrants()))
            .toList();
    return Optional.of(new Evidence(kind, place, blankEffect, results, sigma));
  }

  /** The standard deviation of what lies before the change; 0 where that is too little. */
  private double scatter() {
    double[] before =
        points.stream()
            .filter(point -> point.at().isBefore(window.change()))
            .mapToDouble(Point::value)
            .toArray();
    return before.length < Gathered.LEAST_BEFORE ? 0 : Math.sqrt(StatUtils.variance(before));
  }
}
