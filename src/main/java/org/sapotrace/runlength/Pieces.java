package org.sapotrace.runlength;

import java.util.Arrays;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * An interval in pieces, on each of which a function is taken as the polynomial through its values
 * at the Gauss-Legendre nodes. The function may have kinks where pieces meet.
 *
 * <p>Source: J.-P. Berrut, L. N. Trefethen, Barycentric Lagrange interpolation, SIAM Review 46
 * (2004) 501, doi:10.1137/S0036144502417715.
 */
final class Pieces {

  private static final int ORDER = 12;
  private static final double[] NODES = new double[ORDER];
  private static final double[] WEIGHTS = new double[ORDER];
  private static final double[] BARYCENTRIC = new double[ORDER];

  static {
    GaussIntegrator rule = new GaussIntegratorFactory().legendre(ORDER);
    for (int i = 0; i < ORDER; i++) {
      NODES[i] = rule.getPoint(i);
      WEIGHTS[i] = rule.getWeight(i);
      // Up to a common factor: section 5 of the source.
      BARYCENTRIC[i] = Math.sqrt((1 - NODES[i] * NODES[i]) * WEIGHTS[i]) * (i % 2 == 0 ? 1 : -1);
    }
  }

  private final double[] ends;
  private final double[] nodes;

  private Pieces(double[] ends) {
    this.ends = ends;
    nodes = new double[ORDER * (ends.length - 1)];
    for (int i = 0; i < nodes.length; i++) {
      nodes[i] = middle(i / ORDER) + half(i / ORDER) * NODES[i % ORDER];
    }
  }

  /**
   * Pieces between these ends, divided further where they are too wide.
   *
   * @param widest the largest width of a piece
   * @param ends at least two, ascending
   */
  static Pieces of(double widest, double... ends) {
    double[] all = {ends[0]};
    for (int i = 1; i < ends.length; i++) {
      int parts = (int) Math.ceil((ends[i] - ends[i - 1]) / widest);
      int known = all.length;
      all = Arrays.copyOf(all, known + parts);
      for (int part = 1; part < parts; part++) {
        all[known + part - 1] = ends[i - 1] + part * (ends[i] - ends[i - 1]) / parts;
      }
      all[known + parts - 1] = ends[i];
    }
    return new Pieces(all);
  }

  /** Where the function's values are to be known, ascending. */
  double[] nodes() {
    return nodes;
  }

  /**
   * The weights w of the function's values f: ∫ f(y) p(y) dy = Σ w_j f_j, with p the density of the
   * landing, from its lower to its upper bound.
   */
  double[] weights(Landing landing) {
    double[] weights = new double[nodes.length];
    for (int piece = 0; piece + 1 < ends.length; piece++) {
      double from = Math.max(ends[piece], landing.from());
      double to = Math.min(ends[piece + 1], landing.to());
      if (from == ends[piece] && to == ends[piece + 1]) {
        for (int i = 0; i < ORDER; i++) {
          int at = piece * ORDER + i;
          weights[at] = half(piece) * WEIGHTS[i] * landing.density(nodes[at]);
        }
      } else if (from < to) {
        addPart(weights, piece, from, to, landing);
      }
    }
    return weights;
  }

  /**
   * The integral of a function by its values, times the density of the landing, within its bounds.
   */
  double integral(Landing landing, double[] values) {
    return dot(weights(landing), values, 0);
  }

  /**
   * Integrals of several functions, each times the density of a landing of its own; the landings
   * have one deviation and one pair of bounds, and their means differ.
   *
   * @param landing the first of them
   * @param shifts how far the mean of each lies from that of the first, in deviations
   * @param values of the functions at the nodes
   */
  double[] integrals(Landing landing, double[] shifts, double[][] values) {
    double[] sums = new double[shifts.length];
    for (int piece = 0; piece + 1 < ends.length; piece++) {
      double from = Math.max(ends[piece], landing.from());
      double to = Math.min(ends[piece + 1], landing.to());
      boolean whole = from == ends[piece] && to == ends[piece + 1];
      for (int i = 0; i < ORDER && from < to; i++) {
        double y = (from + to) / 2 + (to - from) / 2 * NODES[i];
        double weight = (to - from) / 2 * WEIGHTS[i] * landing.density(y);
        double[] shares = whole ? null : shares((y - middle(piece)) / half(piece));
        double x = (y - landing.mean()) / landing.deviation();
        for (int k = 0; k < sums.length; k++) {
          double value =
              shares == null ? values[k][piece * ORDER + i] : dot(shares, values[k], piece * ORDER);
          // The density at a shift, from that at none.
          sums[k] += weight * Math.exp(shifts[k] * (x - shifts[k] / 2)) * value;
        }
      }
    }
    return sums;
  }

  private static double dot(double[] weights, double[] values, int first) {
    double sum = 0;
    for (int i = 0; i < weights.length; i++) {
      sum += weights[i] * values[first + i];
    }
    return sum;
  }

  /** Adds the weights of a part of a piece, where the polynomial is needed between its nodes. */
  private void addPart(double[] weights, int piece, double from, double to, Landing landing) {
    double half = (to - from) / 2;
    for (int i = 0; i < ORDER; i++) {
      double y = (from + to) / 2 + half * NODES[i];
      double[] shares = shares((y - middle(piece)) / half(piece));
      double weight = half * WEIGHTS[i] * landing.density(y);
      for (int j = 0; j < ORDER; j++) {
        weights[piece * ORDER + j] += weight * shares[j];
      }
    }
  }

  /** How much the value at each node counts for that of the polynomial at t, from -1 to 1. */
  private static double[] shares(double t) {
    double[] shares = new double[ORDER];
    double sum = 0;
    for (int j = 0; j < ORDER; j++) {
      if (t == NODES[j]) {
        shares = new double[ORDER];
        shares[j] = 1;
        return shares;
      }
      shares[j] = BARYCENTRIC[j] / (t - NODES[j]);
      sum += shares[j];
    }
    for (int j = 0; j < ORDER; j++) {
      shares[j] /= sum;
    }
    return shares;
  }

  private double middle(int piece) {
    return (ends[piece] + ends[piece + 1]) / 2;
  }

  private double half(int piece) {
    return (ends[piece + 1] - ends[piece]) / 2;
  }
}
