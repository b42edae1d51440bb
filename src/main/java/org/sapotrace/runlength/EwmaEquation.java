package org.sapotrace.runlength;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import org.sapotrace.controlchart.Ewma;

/**
 * An EWMA with exact limits, and with or without control limits of the single results. After i
 * results with the average at z the mean run length is L_i(z) = 1 + ∫ L_(i+1)(y) p(y) dy over all y
 * within the limits of the average after i + 1 results, with y = (1 - λ) z + λ x, which is normal
 * with mean (1 - λ) z + λ shift and standard deviation λ; with control limits, only over those with
 * x within 3 sigma. Where the limits have settled L_i and L_(i+1) are the same, which is an
 * integral equation; from there it goes back to the first result.
 *
 * <p>Source: S. V. Crowder, A simple method for studying run-length distributions of exponentially
 * weighted moving average charts, Technometrics 29 (1987) 401, doi:10.1080/00401706.1987.10488267.
 *
 * @param limited whether results beyond 3 sigma signal as well
 */
record EwmaEquation(Ewma ewma, boolean limited) implements MeanRunLength {

  /**
   * The least lambda, inclusive, at which this takes little time: below it the limits settle after
   * very many results only.
   */
  static final double LEAST_LAMBDA = 0.02;

  private static final double CONTROL_LIMIT = 3;
  // From here on the limits of the average are as good as settled: what is left of their variance.
  private static final double UNSETTLED = 1e-9;
  // In standard deviations of a step; narrower where polynomials are needed between their nodes.
  private static final double WIDEST = 4;
  private static final double WIDEST_IN_PARTS = 3;
  // The derivative that jumps at a kink; from here on it is too smooth to matter.
  private static final int SMOOTH = 4;

  /**
   * Where L_i has no derivative of this order, because there a bound of the integral passes a kink
   * of L_(i+1), or the limits of the average.
   */
  private record Kink(double at, int order) {}

  @Override
  public double[] at(double... shifts) {
    return at((int) Math.ceil(Math.log(UNSETTLED) / (2 * Math.log1p(-ewma.lambda()))), shifts);
  }

  /** With the limits of the long run from the first result on, which are called asymptotic. */
  double[] atSettled(double... shifts) {
    return at(0, shifts);
  }

  private double[] at(int settling, double[] shifts) {
    double limit = limit();
    List<Kink> kinks = List.of();
    for (int order = 1; order < SMOOTH; order++) {
      kinks = kinks(limit, limit, kinks);
    }
    Pieces pieces = pieces(limit, kinks);
    double[][] lengths = new double[shifts.length][];
    for (int i = 0; i < shifts.length; i++) {
      lengths[i] = settled(pieces, limit, shifts[i]);
    }
    for (int results = settling - 1; results > 0; results--) {
      double own = limitAfter(results);
      kinks = kinks(own, limit, kinks);
      Pieces before = pieces(own, kinks);
      lengths = before(before.nodes(), pieces, limit, shifts, lengths);
      pieces = before;
      limit = own;
    }
    double[] mean = pieces.integrals(landing(0, limit, 0), shifts, lengths);
    return Arrays.stream(mean).map(each -> 1 + each).toArray();
  }

  /** Run lengths one result earlier, at these places, by those at the nodes of the pieces. */
  private double[][] before(
      double[] places, Pieces pieces, double limit, double[] shifts, double[][] lengths) {
    double[][] earlier = new double[shifts.length][places.length];
    for (int i = 0; i < places.length; i++) {
      double[] mean = pieces.integrals(landing(places[i], limit, 0), shifts, lengths);
      for (int k = 0; k < shifts.length; k++) {
        earlier[k][i] = 1 + mean[k];
      }
    }
    return earlier;
  }

  private double[] settled(Pieces pieces, double limit, double shift) {
    double[] nodes = pieces.nodes();
    double[][] moves = new double[nodes.length][];
    double[] signals = new double[nodes.length];
    for (int i = 0; i < nodes.length; i++) {
      Landing next = landing(nodes[i], limit, shift);
      moves[i] = pieces.weights(next);
      signals[i] = next.below() + next.above();
    }
    return Absorption.meanSteps(moves, signals);
  }

  /** The distance of the limits from the centre after so many results, in sigma. */
  private double limitAfter(int results) {
    return limit() * Math.sqrt(-Math.expm1(2 * results * Math.log1p(-ewma.lambda())));
  }

  private double limit() {
    return ewma.width() * Math.sqrt(ewma.lambda() / (2 - ewma.lambda()));
  }

  private Landing landing(double z, double limit, double shift) {
    double kept = (1 - ewma.lambda()) * z;
    double reach = reach();
    return new Landing(
        kept + ewma.lambda() * shift,
        ewma.lambda(),
        Math.max(-limit, kept - reach),
        Math.min(limit, kept + reach));
  }

  /** How far a result within the control limits moves the average from what is kept of it. */
  private double reach() {
    return limited ? CONTROL_LIMIT * ewma.lambda() : Double.POSITIVE_INFINITY;
  }

  /** The kinks within the limits of one result, from those of the next. */
  private List<Kink> kinks(double own, double limit, List<Kink> next) {
    List<Kink> passed = new ArrayList<>(next);
    passed.add(new Kink(-limit, 0));
    passed.add(new Kink(limit, 0));
    List<Kink> kinks = new ArrayList<>();
    for (Kink kink : passed) {
      for (double reach : new double[] {-reach(), reach()}) {
        double at = (kink.at() + reach) / (1 - ewma.lambda());
        if (Math.abs(at) < own && kink.order() + 1 < SMOOTH) {
          kinks.add(new Kink(at, kink.order() + 1));
        }
      }
    }
    return kinks;
  }

  private Pieces pieces(double limit, List<Kink> kinks) {
    DoubleStream ends =
        DoubleStream.concat(DoubleStream.of(-limit, limit), kinks.stream().mapToDouble(Kink::at));
    return Pieces.of(
        ewma.lambda() * (limited ? WIDEST_IN_PARTS : WIDEST), ends.distinct().sorted().toArray());
  }
}
