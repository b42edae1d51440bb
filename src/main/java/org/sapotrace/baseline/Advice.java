package org.sapotrace.baseline;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.Side;
import org.sapotrace.measure.Rounding;

/** Says in words what a baseline's diagnostics call for: each sentence one thing to do, and why. */
public final class Advice {

  /** A p-value below it is taken for evidence. */
  private static final double SIGNIFICANT = 0.05;

  /** Baselines after which limits are estimated once more. */
  private static final int FIRST_REESTIMATE = 30;

  private static final int LAST_REESTIMATE = 100;

  private static final int MOST_NAMES = 2;

  private final Diagnostics diagnostics;
  private final Dispersion dispersion;
  private final Scale scale;
  private final boolean nonNegative;
  private final IntFunction<String> names;
  private final List<String> sentences = new ArrayList<>();

  private Advice(
      Diagnostics diagnostics,
      Dispersion dispersion,
      Scale scale,
      boolean nonNegative,
      IntFunction<String> names) {
    this.diagnostics = diagnostics;
    this.dispersion = dispersion;
    this.scale = scale;
    this.nonNegative = nonNegative;
    this.names = names;
  }

  /**
   * What to do, most pressing first: what belies the limits, then what would make them better.
   *
   * @param dispersion by which sigma was estimated
   * @param scale on which the limits are
   * @param nonNegative whether the true quantity cannot be negative
   * @param names the name of a result by its number, counting from 0, such as {@code batch K-12}
   */
  public static List<String> of(
      Diagnostics diagnostics,
      Dispersion dispersion,
      Scale scale,
      boolean nonNegative,
      IntFunction<String> names) {
    Advice advice = new Advice(diagnostics, dispersion, scale, nonNegative, names);
    advice.onSignals();
    advice.onBetween();
    advice.onChange();
    advice.onAutocorrelation();
    advice.onResolution();
    advice.onNotPositive();
    advice.onShape();
    advice.onSize();
    return List.copyOf(advice.sentences);
  }

  private void onSignals() {
    for (InsideSignal signal : diagnostics.signals()) {
      List<Integer> results = signal.results();
      say(
          "Find out what happened at %s (%s%s), and adopt again without %s if there was a cause."
              .formatted(
                  where(results),
                  signal.rule().description(),
                  side(signal.side()),
                  results.size() == 1 ? "it" : "them"));
    }
  }

  private String where(List<Integer> results) {
    if (results.size() <= MOST_NAMES) {
      return results.stream().map(names::apply).collect(Collectors.joining(" and "));
    }
    return "%d results from %s to %s"
        .formatted(
            results.size(),
            names.apply(results.get(0)),
            names.apply(results.get(results.size() - 1)));
  }

  private static String side(Side side) {
    return side == Side.NONE ? "" : side == Side.HIGH ? ", high" : ", low";
  }

  /** Limits from within subgroups are too narrow where something else makes their means differ. */
  private void onBetween() {
    Subgrouping found = diagnostics.subgrouping();
    if (found != null && found.pValue() != null && found.pValue() < SIGNIFICANT) {
      say(
          ("Find what differs from one subgroup to the next, or record their means on a stream of"
                  + " single results: they scatter %s times as far as the values within them let"
                  + " expect (analysis of variance, p = %s).")
              .formatted(
                  Rounding.of(Objects.requireNonNull(found.ratio())), Rounding.of(found.pValue())));
    }
  }

  private void onChange() {
    Pettitt change = diagnostics.change();
    if (change.pValue() < SIGNIFICANT) {
      say(
          ("Take the baseline from one side of %s only: the level seems to have changed there"
                  + " (Pettitt's test, p = %s).")
              .formatted(names.apply(change.before()), Rounding.of(change.pValue())));
    }
  }

  /**
   * The run length of 34 is that of limits by moving ranges around results with a lag-1 correlation
   * of 0.5, computed; it is 370 without.
   */
  private void onAutocorrelation() {
    Autocorrelation found = diagnostics.autocorrelation();
    // Neighbours alone may show what the other lags dilute.
    if (found == null
        || !(found.pValue() < SIGNIFICANT
            || Math.abs(found.lag1()) > 1.96 / Math.sqrt(diagnostics.n()))) {
      return;
    }
    if (diagnostics.subgrouping() != null) {
      say(
          ("Find what carries over from one subgroup to the next, or makes them swing to and fro (r1"
                  + " = %s): limits taken from within subgroups know nothing of it.")
              .formatted(Rounding.of(found.lag1())));
    } else if (found.lag1() > 0) {
      say(
          ("Sample further apart, or find what carries over from one result to the next (r1 = %s):"
                  + " moving ranges understate the spread then, and at r1 = 0.5 limits taken from them"
                  + " are crossed once in 34 results instead of once in 370.")
              .formatted(Rounding.of(found.lag1())));
    } else {
      say(
          ("Find what makes results swing to and fro (r1 = %s), such as a correction after each of"
                  + " them or two benches in turn: moving ranges overstate the spread then, and limits"
                  + " taken from them see too little.")
              .formatted(Rounding.of(found.lag1())));
    }
  }

  private void onResolution() {
    Resolution found = diagnostics.resolution();
    if (found != null && !found.adequate()) {
      say(
          ("Titrate more sample, or read in finer steps: the reading step of %s is too coarse, since"
                  + " no more than %d values of the %srange are possible within its limit.")
              .formatted(
                  Rounding.of(found.step()),
                  found.possibleRanges(),
                  diagnostics.subgrouping() == null ? "moving " : ""));
    }
  }

  private void onNotPositive() {
    int count = diagnostics.notPositive();
    Subgrouping subgrouping = diagnostics.subgrouping();
    if (nonNegative && count > 0) {
      say(
          ("Check the blank: %d of %d %s %s at or below 0. They count as they are, and no log or"
                  + " Box-Cox scale can be had with them.")
              .formatted(
                  count,
                  subgrouping == null ? diagnostics.n() : subgrouping.values(),
                  subgrouping == null ? "results" : "values",
                  count == 1 ? "is" : "are"));
    }
  }

  private void onShape() {
    AndersonDarling normality = diagnostics.normality();
    BoxCox boxCox = diagnostics.boxCox();
    if (normality == null || boxCox == null || !(normality.pValue() < SIGNIFICANT)) {
      return;
    }
    String why = "(Anderson-Darling, p = %s)".formatted(Rounding.of(normality.pValue()));
    if (scale != Scale.LINEAR || boxCox.allows(1)) {
      onOddShape(why);
    } else if (boxCox.allows(0)) {
      say(
          ("Chart this stream on a log scale: the results are skewed %s, and equal limits on either"
                  + " side of their mean are crossed too often on one of them.")
              .formatted(why));
    } else {
      say(
          ("Chart this stream on a Box-Cox scale with lambda %s: the results are skewed %s, and equal"
                  + " limits on either side of their mean are crossed too often on one of them.")
              .formatted(Rounding.of(boxCox.lambda()), why));
    }
  }

  /** Coarse steps alone make the test say that results are not normal. */
  private void onOddShape(String why) {
    if (isFine(diagnostics.resolution())) {
      say(
          ("Look for two products, lots or methods on this stream: the results do not look normal %s,"
                  + " and no scale makes them so.")
              .formatted(why));
    }
  }

  private static boolean isFine(@Nullable Resolution resolution) {
    return resolution != null && resolution.adequate();
  }

  private void onSize() {
    int n = diagnostics.n();
    Subgrouping subgrouping = diagnostics.subgrouping();
    String what = subgrouping == null ? "results" : "subgroups";
    double rate =
        subgrouping == null
            ? FalseAlarms.rate(n, dispersion)
            : FalseAlarms.rate(subgrouping.sizes(), dispersion);
    String alarms =
        "from %d %s by %s, %s%s of 1000 %s in control fall beyond the limits on average,"
                .formatted(
                    n,
                    what,
                    words(),
                    dispersion == Dispersion.MEDIAN_MOVING_RANGE ? "more than " : "",
                    perThousand(rate),
                    subgrouping == null ? "results" : "means")
            + " instead of %s".formatted(perThousand(FalseAlarms.KNOWN));
    if (n < FIRST_REESTIMATE) {
      say(
          "Adopt again at %d %s and at %d: %s."
              .formatted(FIRST_REESTIMATE, what, LAST_REESTIMATE, alarms));
    } else if (n < LAST_REESTIMATE) {
      say("Adopt again at %d %s: %s.".formatted(LAST_REESTIMATE, what, alarms));
    } else {
      say("Keep these limits until the process is changed on purpose: %s.".formatted(alarms));
    }
  }

  private String words() {
    return switch (dispersion) {
      case MOVING_RANGE -> "moving ranges";
      case MEDIAN_MOVING_RANGE -> "the median moving range";
      case STANDARD_DEVIATION ->
          diagnostics.subgrouping() == null
              ? "their standard deviation"
              : "their standard deviations";
      case RANGE -> "their ranges";
    };
  }

  private static String perThousand(double rate) {
    return String.format(Locale.ROOT, "%.1f", 1000 * rate);
  }

  private void say(String sentence) {
    sentences.add(sentence);
  }
}
