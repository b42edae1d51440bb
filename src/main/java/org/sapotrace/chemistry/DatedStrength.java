package org.sapotrace.chemistry;

import java.time.Duration;
import java.time.Instant;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;

/**
 * The strength that a standardisation found.
 *
 * @param performedAt when
 * @param normality what
 */
public record DatedStrength(Instant performedAt, Measured<Normality> normality) {

  /**
   * The strength at a time between this standardisation and a later one: c = (1 - f) c1 + f c2,
   * with the part f of the time between them that has passed.
   *
   * <p>Its uncertainty is (1 - f) u1 + f u2. The two share standard, balance and glassware, so
   * their errors are taken as fully correlated (JCGM 100:2008, 5.2.2, note 1), and its degrees of
   * freedom as the fewer of both: each errs to the safe side.
   *
   * @throws IllegalArgumentException for a time that is not between them, both included
   */
  public Measured<Normality> between(DatedStrength later, Instant at) {
    double whole = seconds(performedAt, later.performedAt);
    double passed = seconds(performedAt, at);
    if (!(passed >= 0 && passed <= whole)) {
      throw new IllegalArgumentException(
          "%s is not between the standardisations of %s and %s."
              .formatted(at, performedAt, later.performedAt));
    }
    double f = whole == 0 ? 0 : passed / whole;
    Measured<Normality> other = later.normality;
    return new Measured<>(
        new Normality(
            (1 - f) * normality.quantity().molesPerLitre() + f * other.quantity().molesPerLitre()),
        (1 - f) * normality.standardUncertainty() + f * other.standardUncertainty(),
        Math.min(normality.degreesOfFreedom(), other.degreesOfFreedom()));
  }

  private static double seconds(Instant from, Instant to) {
    Duration passed = Duration.between(from, to);
    return passed.getSeconds() + passed.getNano() / 1e9;
  }
}
