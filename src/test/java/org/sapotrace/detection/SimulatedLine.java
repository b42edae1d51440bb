package org.sapotrace.detection;

import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * One line of an invented plant: crude, its wash, and titrations of both with one titrant, two
 * batches a day. All of it is drawn from a seed.
 *
 * <p>Spreads are standard deviations of the logarithm from batch to batch. Those of the washed fuel
 * come to 13 % together: feed 11 %, wash 5.5 %, titration 4 %. How they share it is an assumption.
 */
final class SimulatedLine {

  /** Sodium oleate that stands for 5 mg/kg of sodium, mg/kg. */
  static final double LIMIT = 66.2;

  /** The mean of the washed fuel while nothing is wrong, mg/kg. */
  static final double LEVEL = 0.6 * LIMIT;

  static final double CRUDE = 1200;
  static final double CHECK_STANDARD = 100;

  /** k = c M 1000 for 0.01 mol/L and sodium oleate: mg/kg for each mL on each g. */
  static final double K = 0.01 * 304.45 * 1000;

  static final double WASHED_SAMPLE_G = 100;
  static final double CRUDE_SAMPLE_G = 10;
  static final double CHECK_SAMPLE_G = 50;

  /**
   * How widely things spread.
   *
   * @param feed soap of the crude
   * @param wash part that the wash leaves
   * @param washed titration of washed fuel
   * @param crude titration of crude
   * @param check titration of the check standard
   * @param blankMl titration of a blank, mL
   * @param standardisation of the titrant
   */
  record Spreads(
      double feed,
      double wash,
      double washed,
      double crude,
      double check,
      double blankMl,
      double standardisation) {

    static final Spreads USUAL = new Spreads(0.11, 0.055, 0.04, 0.02, 0.03, 0.01, 0.003);

    /** A plant whose wash spreads more, and its feed less. */
    static final Spreads UNEVEN_WASH = new Spreads(0.09, 0.085, 0.04, 0.02, 0.03, 0.01, 0.003);
  }

  /**
   * What the bench found.
   *
   * @param crude soap of each batch before the wash, mg/kg
   * @param washed soap of each batch after it, mg/kg
   * @param check soap found in the check standard with every second batch, mg/kg; NaN else
   * @param blank titrant that a blank took with every second batch, mL above the usual; NaN else
   * @param normality found by standardisation with every fourteenth batch, as a part of the
   *     nominal; NaN else
   */
  record Found(
      double[] crude, double[] washed, double[] check, double[] blank, double[] normality) {

    /** ln(crude/washed) of each batch. */
    double[] removal() {
      return IntStream.range(0, crude.length)
          .mapToDouble(i -> Math.log(crude[i] / washed[i]))
          .toArray();
    }
  }

  private static final int CHECKED_EVERY = 2;
  private static final int STANDARDISED_EVERY = 14;

  private final Spreads spreads;
  private final SplittableRandom random;

  SimulatedLine(Spreads spreads, SplittableRandom random) {
    this.spreads = spreads;
    this.random = random;
  }

  /**
   * Runs the line.
   *
   * @param quiet for so many batches nothing is wrong
   * @param drifting and for so many the fault grows
   */
  Found run(int quiet, int drifting, @Nullable Drift drift) {
    int n = quiet + drifting;
    Found found =
        new Found(new double[n], new double[n], new double[n], new double[n], new double[n]);
    for (int i = 0; i < n; i++) {
      double risen = drift == null || i < quiet ? 0 : drift.at(i - quiet + 1);
      batch(found, i, risen, drift == null ? null : drift.fault());
    }
    return found;
  }

  private void batch(Found found, int i, double risen, @Nullable Fault fault) {
    double growth = 1 + risen * (LIMIT / LEVEL - 1);
    double wash = fault == Fault.WASH ? growth : 1;
    double feed = fault == Fault.FEED ? growth : 1;
    double weaker = fault == Fault.TITRANT ? growth : 1;
    double blankMl = fault == Fault.BLANK ? risen * (LIMIT - LEVEL) * WASHED_SAMPLE_G / K : 0;
    double crude = CRUDE * feed * spread(spreads.feed());
    double washed = LEVEL * wash * crude / CRUDE * spread(spreads.wash());
    found.crude[i] = read(crude, CRUDE_SAMPLE_G, weaker, blankMl, spreads.crude());
    found.washed[i] = read(washed, WASHED_SAMPLE_G, weaker, blankMl, spreads.washed());
    boolean checked = i % CHECKED_EVERY == 0;
    double check = read(CHECK_STANDARD, CHECK_SAMPLE_G, weaker, blankMl, spreads.check());
    double blank = blankMl + spreads.blankMl() * random.nextGaussian();
    double normality = spread(spreads.standardisation()) / weaker;
    found.check[i] = checked ? check : Double.NaN;
    found.blank[i] = checked ? blank : Double.NaN;
    found.normality[i] = i % STANDARDISED_EVERY == 0 ? normality : Double.NaN;
  }

  private double read(double soap, double sampleG, double weaker, double blankMl, double spread) {
    return soap * weaker * spread(spread) + K * blankMl / sampleG;
  }

  private double spread(double sigma) {
    return Math.exp(sigma * random.nextGaussian());
  }
}
