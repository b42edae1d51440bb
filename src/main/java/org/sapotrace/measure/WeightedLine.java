package org.sapotrace.measure;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * The straight line y = ym + b (x - xm) through observations, by least squares weighted by w = 1 /
 * u^2: xm and ym are the weighted means, b = sum w (x - xm) (y - ym) / S with S = sum w (x - xm)^2.
 *
 * <p>The uncertainties alone make the standard errors s(ym) = 1 / sqrt(sum w) and s(b) = 1 /
 * sqrt(S). Where the n observations scatter about the line by more than that, both are multiplied
 * by sqrt(sum w r^2 / (n - 2)), with the residuals r (ISO/TS 28037:2010, clause 6; the factor is
 * the Birge ratio). Intervals cover 95 %: where the uncertainties alone make the standard errors,
 * as of two observations, with the normal quantile; where the scatter enlarged them, with Student's
 * t for n - 2 degrees of freedom.
 *
 * <p>The observations are taken as independent. Where they share an error, it moves the line as a
 * whole and its slope less than is said.
 */
public final class WeightedLine {

  private static final double UPPER_PROBABILITY = 0.975;

  /**
   * One observation.
   *
   * @param x where it was made, without an uncertainty
   * @param y what was observed
   * @param standardUncertainty of y, above 0
   */
  public record Observation(double x, double y, double standardUncertainty) {

    /** Refuses what is not finite or has no uncertainty with {@link IllegalArgumentException}. */
    public Observation {
      boolean isFinite =
          Double.isFinite(x) && Double.isFinite(y) && Double.isFinite(standardUncertainty);
      if (!(isFinite && standardUncertainty > 0)) {
        throw new IllegalArgumentException(
            "An observation on a line needs finite numbers and an uncertainty above 0.");
      }
    }

    private double weight() {
      return 1 / (standardUncertainty * standardUncertainty);
    }
  }

  /** An interval, both ends included. */
  public record Interval(double lower, double upper) {

    /** Whether a value lies in it. */
    public boolean holds(double value) {
      return value >= lower && value <= upper;
    }
  }

  private final double xMean;
  private final double yMean;
  private final double slope;
  private final double meanStandardError;
  private final double slopeStandardError;
  private final double coverageFactor;

  private WeightedLine(List<Observation> observations) {
    double weight = sum(observations, Observation::weight);
    xMean = sum(observations, each -> each.weight() * each.x()) / weight;
    yMean = sum(observations, each -> each.weight() * each.y()) / weight;
    double spread = sum(observations, each -> each.weight() * square(each.x() - xMean));
    if (!(spread > 0)) {
      throw new IllegalArgumentException(
          "A line needs observations at two or more different places.");
    }
    slope =
        sum(observations, each -> each.weight() * (each.x() - xMean) * (each.y() - yMean)) / spread;
    int degreesOfFreedom = observations.size() - 2;
    double scatter =
        degreesOfFreedom == 0
            ? 1
            : Math.sqrt(
                sum(observations, each -> each.weight() * square(each.y() - at(each.x())))
                    / degreesOfFreedom);
    meanStandardError = Math.max(1, scatter) / Math.sqrt(weight);
    slopeStandardError = Math.max(1, scatter) / Math.sqrt(spread);
    coverageFactor =
        scatter <= 1
            ? new NormalDistribution().inverseCumulativeProbability(UPPER_PROBABILITY)
            : new TDistribution(degreesOfFreedom).inverseCumulativeProbability(UPPER_PROBABILITY);
  }

  /**
   * The line through observations.
   *
   * @throws IllegalArgumentException for observations that do not lie at two or more places
   */
  public static WeightedLine through(List<Observation> observations) {
    return new WeightedLine(observations);
  }

  public double at(double x) {
    return yMean + slope * (x - xMean);
  }

  /** b, by which y rises where x rises by 1. */
  public double slope() {
    return slope;
  }

  /** s(b). */
  public double slopeStandardError() {
    return slopeStandardError;
  }

  /** The interval of the slope. */
  public Interval slopeInterval() {
    double half = coverageFactor * slopeStandardError;
    return new Interval(slope - half, slope + half);
  }

  /** Whether the observations say which way the line goes: 0 is outside the slope's interval. */
  public boolean isInclined() {
    return !slopeInterval().holds(0);
  }

  /**
   * Where an {@linkplain #isInclined inclined} line reaches y.
   *
   * @throws IllegalStateException for any other line
   */
  public double reaches(double y) {
    refuseUnlessInclined();
    return xMean + (y - yMean) / slope;
  }

  /**
   * The interval of where an {@linkplain #isInclined inclined} line reaches y: all x at which y
   * lies within the interval of the line, d + b (x - xm) = ± k sqrt(s(ym)^2 + s(b)^2 (x - xm)^2)
   * with d = ym - y and the coverage factor k. E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175,
   * doi:10.1111/j.2517-6161.1954.tb00159.x.
   *
   * @throws IllegalStateException for any other line
   */
  public Interval reaching(double y) {
    refuseUnlessInclined();
    double d = yMean - y;
    double mean = square(coverageFactor * meanStandardError);
    double inclination = square(coverageFactor * slopeStandardError);
    double divisor = square(slope) - inclination;
    double root = Math.sqrt(mean * divisor + inclination * square(d));
    double centre = xMean - d * slope / divisor;
    return new Interval(centre - root / divisor, centre + root / divisor);
  }

  private void refuseUnlessInclined() {
    if (!isInclined()) {
      throw new IllegalStateException("The line may as well be level, so it reaches nothing.");
    }
  }

  private static double sum(List<Observation> observations, ToDoubleFunction<Observation> term) {
    return observations.stream().mapToDouble(term).sum();
  }

  private static double square(double value) {
    return value * value;
  }
}
