package org.sapotrace.chemistry;

import org.sapotrace.measure.Rounding;

/** The most that a sample can hold of what is found in it. */
public enum WholeSample {
  /** Parts of its mass: all of it. */
  MASS("mg/kg", 1e6),
  /** Acidity as potassium hydroxide. The most acid sample would be formic acid, 1219 mg/g. */
  ACIDITY("mg/g", 1220),
  /** Parts of its mass in hundredths: all of it. */
  PER_CENT("%", 100);

  private final String unit;
  private final double most;

  WholeSample(String unit, double most) {
    this.unit = unit;
    this.most = most;
  }

  /** The unit in UCUM code. */
  public String unit() {
    return unit;
  }

  /**
   * Whether a sample can hold that much; below zero likewise, as a measured figure may lie there.
   */
  public boolean holds(double value) {
    return Math.abs(value) <= most;
  }

  /** What it can hold, as it may be measured, such as {@code from -100 to 100 %}. */
  public String inWords() {
    return "from %s to %s %s".formatted(Rounding.of(-most), Rounding.of(most), unit);
  }
}
