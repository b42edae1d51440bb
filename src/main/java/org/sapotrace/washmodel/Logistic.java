package org.sapotrace.washmodel;

import org.hipparchus.analysis.differentiation.Gradient;

/** The logistic function, without an infinity on the way. */
final class Logistic {

  private Logistic() {}

  /** 1/(1 + e^-z). */
  static Gradient of(Gradient z) {
    return z.multiply(0.5).tanh().add(1).multiply(0.5);
  }

  /** Its integral from minus infinity, ln(1 + e^z). */
  static Gradient integral(Gradient z) {
    return z.getValue() > 0 ? z.add(z.negate().exp().log1p()) : z.exp().log1p();
  }
}
