package org.sapotrace.chemistry;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Budget;
import org.sapotrace.measure.Contribution;

/**
 * What a wash or tower took out of a batch, as a logarithm: r = ln(w_in / w_out) of the contents
 * before and behind it.
 *
 * <p>0 is nothing, ln 2 = 0.693 a half, ln 10 = 2.303 nine tenths. It stays as it is where a feed
 * is twice as soapy and leaves twice as soapy, so that a soapier feed is not taken for a worse
 * wash; and the removals of steps one behind the other add up.
 *
 * <p>u(r)^2 = (u(w_in) / w_in)^2 + (u(w_out) / w_out)^2, JCGM 100:2008, 5.1.2, as dr/dw = 1 / w on
 * either side. Errors that both share, such as that of one titrant lot, cancel in the ratio and are
 * counted all the same: u(r) is then too large, never too small.
 *
 * @param inlet before the wash or tower
 * @param outlet behind it, in the same unit
 */
public record Removal(Content inlet, Content outlet) {

  /** Beyond this relative uncertainty the logarithm is bent too much to be taken as straight. */
  private static final double MOST_RELATIVE = 0.25;

  /**
   * A content.
   *
   * @param value above 0 and finite, in any unit
   * @param standardUncertainty in that unit, at least 0; null where unknown
   * @param degreesOfFreedom of the uncertainty, more than 0; null where infinite or unknown
   */
  public record Content(
      double value, @Nullable Double standardUncertainty, @Nullable Double degreesOfFreedom) {

    /** Refuses a content that has no logarithm with {@link IllegalArgumentException}. */
    public Content {
      if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "A removal needs contents above 0 on either side: the logarithm of another does not exist.");
      }
    }

    private @Nullable Double relative() {
      return standardUncertainty == null ? null : (Double) (standardUncertainty / value);
    }
  }

  /** r = ln(w_in / w_out); negative where more came out than went in. */
  public double value() {
    return Math.log(inlet.value) - Math.log(outlet.value);
  }

  /** The parts of u(r); empty where one is unknown, or too large to say anything. */
  public Optional<Budget> budget() {
    Double in = inlet.relative();
    Double out = outlet.relative();
    if (in == null || out == null || !(in * in + out * out < Double.POSITIVE_INFINITY)) {
      return Optional.empty();
    }
    return Optional.of(
        new Budget(List.of(part("inlet result", inlet, in), part("outlet result", outlet, out))));
  }

  private static Contribution part(String source, Content content, double relative) {
    Double known = content.degreesOfFreedom;
    return new Contribution(source, relative, known == null ? Double.POSITIVE_INFINITY : known);
  }

  /**
   * Whether a side is so uncertain that the uncertainty of the logarithm is only a rough figure.
   */
  public boolean isRough() {
    Double in = inlet.relative();
    Double out = outlet.relative();
    return (in != null && in > MOST_RELATIVE) || (out != null && out > MOST_RELATIVE);
  }
}
