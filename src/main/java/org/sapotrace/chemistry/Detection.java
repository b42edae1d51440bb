package org.sapotrace.chemistry;

/**
 * From where on a figure can be told from a blank, and from where on it is a quantity.
 *
 * @param limit of detection, in the unit of the figure, at least 0
 * @param quantification the limit of quantification likewise, no less
 */
public record Detection(double limit, double quantification) {

  /** Refuses limits in the wrong order with {@link IllegalArgumentException}. */
  public Detection {
    if (!(limit >= 0 && quantification >= limit && quantification < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "The limit of quantification must be no less than that of detection, and both numbers of at least 0.");
    }
  }

  /**
   * 3.3 s0 k and 10 s0 k (ICH Q2(R1), 6.3 and 7.3, from memory).
   *
   * @param scatterMl s0, the standard deviation of blanks in mL
   * @param unitsPerMl k, what a mL of titrant comes to
   */
  static Detection of(double scatterMl, double unitsPerMl) {
    return new Detection(3.3 * scatterMl * unitsPerMl, 10 * scatterMl * unitsPerMl);
  }
}
