package org.sapotrace.monitoring;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.IntFunction;
import org.jspecify.annotations.Nullable;
import org.sapotrace.baseline.Advice;
import org.sapotrace.baseline.AndersonDarling;
import org.sapotrace.baseline.Autocorrelation;
import org.sapotrace.baseline.BoxCox;
import org.sapotrace.baseline.Diagnostics;
import org.sapotrace.baseline.InsideSignal;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.Side;

/**
 * What a baseline said about itself when limits were laid down from it. It is stored as it is
 * answered, so that it can be read again when the results have been corrected since; null stands
 * for what could not be had.
 *
 * @param n how many results
 * @param distinctValues how many different ones
 * @param signals the rules in use that hold inside it
 * @param advice what to do about it, most pressing first
 */
public record BaselineDiagnostics(
    int n,
    int distinctValues,
    @Nullable Normality normality,
    @Nullable Power boxCox,
    @Nullable Neighbours autocorrelation,
    @Nullable Steps resolution,
    List<Inside> signals,
    List<String> advice) {

  /** The test of Anderson and Darling: A² and its p-value. */
  public record Normality(double statistic, double pValue) {

    static @Nullable Normality of(@Nullable AndersonDarling test) {
      return test == null ? null : new Normality(test.statistic(), test.pValue());
    }
  }

  /** The power of Box and Cox with its 95 % interval. */
  public record Power(double lambda, double lower, double upper) {

    static @Nullable Power of(@Nullable BoxCox found) {
      return found == null ? null : new Power(found.lambda(), found.lower(), found.upper());
    }
  }

  /** The correlation of neighbours, and the statistic of Ljung and Box with its p-value. */
  public record Neighbours(double lag1, double ljungBox, double pValue) {

    static @Nullable Neighbours of(@Nullable Autocorrelation found) {
      return found == null ? null : new Neighbours(found.lag1(), found.ljungBox(), found.pValue());
    }
  }

  /** The reading step, how many moving ranges it leaves within their limit, and if they suffice. */
  public record Steps(double step, long possibleRanges, boolean adequate) {

    static @Nullable Steps of(org.sapotrace.baseline.@Nullable Resolution found) {
      return found == null
          ? null
          : new Steps(found.step(), found.possibleRanges(), found.adequate());
    }
  }

  /** A rule that holds inside, at those results. */
  public record Inside(String rule, Side side, List<UUID> results) {}

  public BaselineDiagnostics {
    signals = List.copyOf(signals);
    advice = List.copyOf(advice);
  }

  /** The same with more to be done. */
  BaselineDiagnostics advising(String further) {
    List<String> all = new ArrayList<>(advice);
    all.add(further);
    return new BaselineDiagnostics(
        n, distinctValues, normality, boxCox, autocorrelation, resolution, signals, all);
  }

  /**
   * In words, and by the results' identifiers.
   *
   * @param results those of the baseline, in order
   * @param scale on which the limits are
   * @param nonNegative whether the true quantity cannot be negative
   */
  static BaselineDiagnostics of(
      Diagnostics found,
      List<ChartedResult> results,
      Dispersion dispersion,
      Scale scale,
      boolean nonNegative) {
    IntFunction<String> names = i -> "batch " + results.get(i).batch();
    return new BaselineDiagnostics(
        found.n(),
        found.distinctValues(),
        Normality.of(found.normality()),
        Power.of(found.boxCox()),
        Neighbours.of(found.autocorrelation()),
        Steps.of(found.resolution()),
        found.signals().stream().map(signal -> inside(signal, results)).toList(),
        Advice.of(found, dispersion, scale, nonNegative, names));
  }

  private static Inside inside(InsideSignal signal, List<ChartedResult> results) {
    return new Inside(
        signal.rule().id(),
        signal.side(),
        signal.results().stream().map(i -> results.get(i).result()).toList());
  }
}
