package org.sapotrace.bench;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.time.InstantSource;
import org.jspecify.annotations.Nullable;

/** What readings come to, with nothing recorded. */
@ApplicationScoped
public class Calculations {

  private final Assessor assessor;
  private final InstantSource clock;

  Calculations(Assessor assessor, InstantSource clock) {
    this.assessor = assessor;
    this.clock = clock;
  }

  /**
   * What the readings of a titration come to, on a basis that belongs to no line.
   *
   * @param sampledAt when the sample was taken, which decides what a titrant lot was worth; null
   *     for now
   * @param propagation null for variances
   */
  public Assessment calculate(
      Readings readings,
      TitrationBasis basis,
      @Nullable Instant sampledAt,
      @Nullable Propagation propagation) {
    Instant at = sampledAt == null ? clock.instant() : sampledAt;
    return assessor.assess(readings, basis, at, false, propagation);
  }

  /**
   * What a standardisation comes to.
   *
   * @param propagation null for variances
   */
  public Strength calculate(StandardReadings readings, @Nullable Propagation propagation) {
    return Strength.of(StandardisationAssessor.assess(readings, null, propagation), null);
  }
}
