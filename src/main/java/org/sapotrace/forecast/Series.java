package org.sapotrace.forecast;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.hipparchus.stat.StatUtils;
import org.hipparchus.stat.descriptive.rank.Percentile;
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
   * @param latest when it began at the latest
   * @param end after which nothing counts; null for no end
   */
  record Window(Instant from, Instant change, Instant latest, @Nullable Instant end) {

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
  record Point(Instant at, double value, double repeatability, Map<String, Integer> titrants) {

    Point at(Instant other) {
      return new Point(other, value, repeatability, titrants);
    }
  }

  /** How many lie before the change. */
  int before() {
    return (int) points.stream().filter(point -> point.at().isBefore(window.change())).count();
  }

  /** Whether it tells what changed: there are results before the change and behind it. */
  boolean isOnBothSides() {
    return before() > 0 && before() < points.size();
  }

  /** How far a result differs by measuring alone, on the median; 0 where it is unknown. */
  double measurement() {
    double[] known =
        points.stream()
            .mapToDouble(Point::repeatability)
            .filter(each -> !Double.isNaN(each))
            .toArray();
    return known.length == 0 ? 0 : new Percentile(50).evaluate(known);
  }

  /** As evidence; empty where nobody knows how widely it scatters. */
  Optional<Evidence> evidence(Place place) {
    double sigma = Math.max(scatter(), measurement());
    boolean isKnown = isOfTheBench() || points.size() >= Gathered.LEAST_BEFORE;
    if (points.isEmpty() || !(sigma > 0) || !isKnown) {
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

  /** What is the same each time differs by measuring alone, and fuel does not. */
  private boolean isOfTheBench() {
    return switch (kind) {
      case CHECK_STANDARD, BLANK, STANDARDISATION, EARLIER_STANDARDISATION -> true;
      case CRUDE, WASHED, REMOVAL -> false;
    };
  }

  /**
   * The standard deviation of what lies before the change; where that is too little, that of either
   * side about its own mean; 0 where that is too little as well.
   */
  private double scatter() {
    double[] before = values(point -> point.at().isBefore(window.change()));
    if (before.length >= Gathered.LEAST_BEFORE) {
      return Math.sqrt(StatUtils.variance(before));
    }
    double[] behind = values(point -> !point.at().isBefore(window.change()));
    if (points.size() < Gathered.LEAST_BEFORE) {
      return 0;
    }
    return Math.sqrt((squares(before) + squares(behind)) / (points.size() - 2));
  }

  private static double squares(double[] values) {
    return values.length < 2 ? 0 : StatUtils.variance(values) * (values.length - 1);
  }

  private double[] values(Predicate<Point> some) {
    return points.stream().filter(some).mapToDouble(Point::value).toArray();
  }
}
