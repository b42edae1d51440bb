package org.sapotrace.washmodel;

import java.util.List;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.sapotrace.measure.Rounding;

/**
 * How many stages a water wash needs, from what it took off batch by batch.
 *
 * <p>R is the mean of the removals ln(inlet/outlet) of n batches and s their standard deviation, so
 * that s(R) = s / sqrt(n), and the 95 % interval of R is R ± t s(R) with n - 1 degrees of freedom.
 * The extraction factor E follows from R, and the stages needed from E and the removal that is
 * wanted, ln(inlet/limit), each by the formula of the {@link WashScheme}. Both are monotone, so
 * that the interval is carried through them by its ends; s(E) = s(R) dE/dR. The inlet is taken as
 * given.
 */
public final class WaterWash {

  /** So many batches must be known on both sides. */
  public static final int FEWEST = 3;

  private static final double STEP = 1e-5;

  /**
   * The soap of one batch.
   *
   * @param inlet before the wash in mg/kg, above 0
   * @param outlet after it in mg/kg, above 0
   */
  public record Batch(double inlet, double outlet) {

    /** Refuses what has no logarithm with {@link IllegalArgumentException}. */
    public Batch {
      boolean isPositive = inlet > 0 && outlet > 0;
      if (!(isPositive && Double.isFinite(inlet) && Double.isFinite(outlet))) {
        throw new IllegalArgumentException(
            "Removal is computed from soap above 0 on both sides of the wash.");
      }
    }

    private double removal() {
      return Math.log(inlet / outlet);
    }
  }

  private WaterWash() {}

  /**
   * The stages needed; they need not be a whole number.
   *
   * @param stages that the wash has, from 1 to 100
   * @param batches washed in them
   * @param inlet soap before the wash for which the stages are to suffice, in mg/kg, above 0
   * @param limit that is to be met after it, in mg/kg, above 0
   * @throws IllegalArgumentException for numbers outside these ranges
   */
  public static Forecast stagesNeeded(
      WashScheme scheme, int stages, List<Batch> batches, double inlet, double limit) {
    WashScheme.checkStages(stages);
    double wanted = new Batch(inlet, limit).removal();
    if (batches.size() < FEWEST) {
      return new Forecast.Insufficient(
          "%d of the %d batches that are needed have soap above 0 before and after the wash."
              .formatted(batches.size(), FEWEST));
    }
    DescriptiveStatistics removals = new DescriptiveStatistics();
    batches.forEach(batch -> removals.addValue(batch.removal()));
    double removal = removals.getMean();
    double error = removals.getStandardDeviation() / Math.sqrt(batches.size());
    double half = Coverage.factor(batches.size() - 1) * error;
    Forecast.Parameter removed = new Forecast.Parameter("removal", removal, error, "1");
    if (!(removal - half > 0)) {
      return new Forecast.NoTrend(
          words(scheme), List.of(removed), "The batches do not show that the wash takes soap off.");
    }
    Estimate estimate = new Estimate(scheme, stages, removal, error, half);
    return Attempt.at(() -> estimate.forecast(removed, inlet, wanted, limit));
  }

  /** What is known of a wash that does take soap off. */
  private record Estimate(
      WashScheme scheme, int stages, double removal, double error, double half) {

    Forecast forecast(Forecast.Parameter removed, double inlet, double wanted, double limit) {
      double step = STEP * removal;
      double slope = (extraction(removal + step) - extraction(removal - step)) / (2 * step);
      List<Forecast.Parameter> parameters =
          List.of(
              removed,
              new Forecast.Parameter("extraction factor", extraction(removal), slope * error, "1"));
      double needed = needed(removal, wanted);
      if (!Double.isFinite(needed)) {
        return new Forecast.NoTrend(
            words(scheme),
            parameters,
            "However many stages: they do not bring %s mg/kg to within %s mg/kg."
                .formatted(Rounding.of(inlet), Rounding.of(limit)));
      }
      return new Forecast.Expected(
          words(scheme),
          parameters,
          new Forecast.Remaining(
              "stages needed",
              needed,
              needed(removal + half, wanted),
              needed(removal - half, wanted),
              "1",
              limit),
          "To bring %s mg/kg to within %s mg/kg takes %.0f %s."
              .formatted(
                  Rounding.of(inlet),
                  Rounding.of(limit),
                  Math.ceil(needed),
                  Math.ceil(needed) == 1 ? "stage" : "stages"));
    }

    private double extraction(double removal) {
      return scheme.extraction(removal, stages);
    }

    private double needed(double removal, double wanted) {
      return wanted > 0 ? scheme.stagesFor(extraction(removal), wanted) : 0;
    }
  }

  private static String words(WashScheme scheme) {
    return switch (scheme) {
      case CROSS_FLOW -> "cross-flow: C_n = C_0 / (1 + E)^n";
      case COUNTER_CURRENT -> "counter-current: C_n = C_0 (E - 1) / (E^(n+1) - 1)";
    };
  }
}
