package org.sapotrace.forecast;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.stat.StatUtils;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.attribution.Evidence.Result;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.UsedTitrant;

/**
 * A lot as what it was taken for, and how it was used.
 *
 * @param used the lot and its normality
 * @param first when it was first used
 * @param last when it was last used
 */
record Strength(UsedTitrant used, Instant first, Instant last) {

  /** The relative standard uncertainty of a usual standardisation; common practice, no source. */
  private static final double OF_STANDARDISATIONS = 0.005;

  /** A lot that moved by less since it was standardised, nobody looks at; common practice. */
  private static final double UNNOTICED = 0.01;

  /** So many results make the variance of their mean next to nothing. */
  private static final int NO_DOUBT = 100;

  /** Behind whatever is looked at. */
  private static final Duration LONG = Duration.ofDays(3650);

  /** What was titrated with, each as it was taken for, in the order of use. */
  static List<Strength> of(Collection<RecordedResult> results) {
    Map<String, Strength> all = new LinkedHashMap<>();
    results.stream()
        .sorted(Comparator.comparing(RecordedResult::sampledAt))
        .forEach(
            result -> {
              UsedTitrant used = result.latest().assessment().titrant();
              if (used != null && !used.interpolated()) {
                Instant at = result.sampledAt();
                all.merge(
                    Lots.titrant(used),
                    new Strength(used, at, at),
                    (known, now) -> new Strength(used, known.first, now.last));
              }
            });
    return List.copyOf(all.values());
  }

  /**
   * How far the lot was from what it was taken for, by the standardisation at which it was taken
   * for that and by those that followed up to the end of its use. Those before the change tell how
   * far it was off then, those behind it how far it is off now; each is compared with a lot that is
   * right. Of a lot that may have gone out of use before the change all tell how far it was off
   * then.
   *
   * @param standardisations of the lot, in order of time
   * @param unmoved when the last sample was taken before the change: what comes into use behind the
   *     change, and was only standardised since, is known as it is now
   */
  List<Series> series(
      List<RecordedResult> standardisations, Series.Window window, Instant unmoved) {
    boolean isNew = !first.isBefore(window.change());
    List<RecordedResult> inUse = inUse(standardisations);
    if (isNew && inUse.size() > 1) {
      // It is known as it was found while it was in use.
      inUse = inUse.stream().filter(each -> each.sampledAt().isAfter(first)).toList();
    }
    List<Series.Point> before = new ArrayList<>();
    List<Series.Point> behind = new ArrayList<>();
    for (RecordedResult result : inUse) {
      Instant at = result.sampledAt();
      boolean isBefore = at.isBefore(isNew ? unmoved : window.change());
      // Whenever the change is found to be, what was before it stays before it.
      (isBefore ? before : behind).add(found(result, isBefore ? window.from() : at));
    }
    List<Series> series = new ArrayList<>();
    if (!last.isBefore(window.change()) && (isNew || !inUse.isEmpty())) {
      series.add(new Series(Kind.STANDARDISATION, window, now(before, behind, window), 0));
    }
    if (last.isBefore(window.latest())) {
      behind.forEach(each -> before.add(each.at(window.from())));
    }
    if (!before.isEmpty()) {
      List<Series.Point> then = new ArrayList<>(scattering(before));
      then.addAll(right(window.change().plus(LONG), Double.NaN));
      series.add(new Series(Kind.EARLIER_STANDARDISATION, window, then, 0));
    }
    return series;
  }

  private List<Series.Point> now(
      List<Series.Point> before, List<Series.Point> behind, Series.Window window) {
    double repeatability = behind.isEmpty() ? OF_STANDARDISATIONS : Double.NaN;
    List<Series.Point> now =
        new ArrayList<>(before.isEmpty() ? right(window.from(), repeatability) : before);
    now.addAll(behind);
    return now;
  }

  /** How far the lot was from what it was taken for. */
  private Series.Point found(RecordedResult result, Instant at) {
    return new Series.Point(
        at,
        Math.log(result.latest().assessment().result().value() / used.normality()),
        Titrated.relativeRepeatability(result),
        Result.strengthOf(Lots.titrant(used)));
  }

  /**
   * A lot that is right, of which there is no doubt.
   *
   * @param repeatability of what it is compared with; NaN where that tells its own
   */
  private List<Series.Point> right(Instant at, double repeatability) {
    return Collections.nCopies(
        NO_DOUBT, new Series.Point(at, 0, repeatability, Result.rightBeside(Lots.titrant(used))));
  }

  /**
   * A lot that was standardised before its use and not since may have moved by what nobody looks
   * at. One that was standardised again is known by what it moved meanwhile.
   */
  private static List<Series.Point> scattering(List<Series.Point> points) {
    double[] values = points.stream().mapToDouble(Series.Point::value).toArray();
    double u =
        values.length < 2
            ? UNNOTICED
            : Math.max(Math.sqrt(StatUtils.variance(values)), points.get(0).repeatability());
    return points.stream()
        .map(each -> new Series.Point(each.at(), each.value(), u, each.titrants()))
        .toList();
  }

  private List<RecordedResult> inUse(List<RecordedResult> standardisations) {
    List<RecordedResult> some = new ArrayList<>();
    for (RecordedResult result : standardisations) {
      if (!result.sampledAt().isAfter(first)) {
        some.clear();
      }
      boolean isEnded = !some.isEmpty() && last(some).isAfter(last);
      if (!isEnded) {
        some.add(result);
      }
    }
    return some;
  }

  private static Instant last(List<RecordedResult> some) {
    return some.get(some.size() - 1).sampledAt();
  }
}
