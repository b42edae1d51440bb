package org.sapotrace.chemistry;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.Volume;

/** What is taken off a titration for what solvent and indicator alone consume. */
public sealed interface Blank {

  /** V0, in mL. */
  double millilitres();

  /** The series of blanks that is known; null where none is. */
  @Nullable BlankSeries series();

  /** Whether it counts by the errors of its own reading and end point. */
  boolean isByItself(Glassware scale);

  /** The standard uncertainty of V0 where it counts by its series, in mL. */
  default double scatterMl(Glassware scale) {
    return 0;
  }

  /** No blank was titrated, which counts as 0 mL. */
  static Blank none() {
    return new None();
  }

  /**
   * A blank titrated once, with no others known of.
   *
   * @param titrated null for none
   */
  static Blank of(@Nullable Volume titrated) {
    return titrated == null ? none() : new Once(titrated, null);
  }

  /** The standard uncertainty of V0 in mL, whatever it comes from. */
  default double standardUncertaintyMl(Glassware scale) {
    return isByItself(scale) ? ownMl(scale) : scatterMl(scale);
  }

  private static double ownMl(Glassware scale) {
    return Math.hypot(scale.readingMl(), scale.endPointMl());
  }

  /** The limits that the scatter of the series sets; empty where there is no series. */
  default Optional<Detection> detection(Glassware scale, double unitsPerMl) {
    return Optional.ofNullable(series())
        .map(series -> Detection.of(series.scatterMl(scale), unitsPerMl));
  }

  /** No blank was titrated. */
  record None() implements Blank {
    @Override
    public double millilitres() {
      return 0;
    }

    @Override
    public @Nullable BlankSeries series() {
      return null;
    }

    @Override
    public boolean isByItself(Glassware scale) {
      return false;
    }
  }

  /**
   * A blank titrated once. Its standard uncertainty is that of its own reading and end point, or
   * s0, that of a single blank with n - 1 degrees of freedom, where the series that is known
   * scatters more than that.
   *
   * @param titrated V0
   * @param series other blanks; null where none are known
   */
  record Once(Volume titrated, @Nullable BlankSeries series) implements Blank {
    @Override
    public double millilitres() {
      return titrated.millilitres();
    }

    @Override
    public boolean isByItself(Glassware scale) {
      return series == null || series.standardDeviation() <= ownMl(scale);
    }

    @Override
    public double scatterMl(Glassware scale) {
      return series == null ? 0 : series.standardDeviation();
    }
  }

  /**
   * The mean of a series of n. Its standard uncertainty is s / sqrt(n) with n - 1 degrees of
   * freedom (JCGM 100:2008, 4.2.3). s is s0 or the reading error of the scale, whichever is larger,
   * as readings that agree do not show that nothing scatters (JCGM 100:2008, F.2.2.1).
   *
   * @param series the blanks
   */
  record MeanOf(BlankSeries series) implements Blank {

    /** Refuses a mean that is no volume with {@link IllegalArgumentException}. */
    public MeanOf {
      if (!(series.mean() >= 0 && series.mean() <= 100_000)) {
        throw new IllegalArgumentException(
            "The last %d blanks come to %s mL on the mean: correct or withdraw those that are wrong, or give the blank of this titration."
                .formatted(series.n(), Rounding.of(series.mean())));
      }
    }

    @Override
    public double millilitres() {
      return series.mean();
    }

    @Override
    public boolean isByItself(Glassware scale) {
      return false;
    }

    @Override
    public double scatterMl(Glassware scale) {
      return Math.max(series.standardDeviation(), scale.readingMl()) / Math.sqrt(series.n());
    }
  }
}
