package org.sapotrace.bench;

import jakarta.enterprise.context.ApplicationScoped;
import org.jspecify.annotations.Nullable;

/** What readings come to, with nothing recorded. */
@ApplicationScoped
public class Calculations {

  /**
   * What the readings of a titration come to, on a basis that belongs to no line.
   *
   * @param propagation null for variances
   */
  public Assessment calculate(
      Readings readings, TitrationBasis basis, @Nullable Propagation propagation) {
    return TitrationAssessor.assess(readings, basis, propagation);
  }

  /**
   * What a standardisation comes to.
   *
   * @param propagation null for variances
   */
  public Strength calculate(StandardReadings readings, @Nullable Propagation propagation) {
    return StandardisationAssessor.assess(readings, propagation);
  }
}
