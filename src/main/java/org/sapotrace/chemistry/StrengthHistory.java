package org.sapotrace.chemistry;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;

/**
 * What a titrant was found to be, time after time.
 *
 * @param standardisations in the order of time; of those of one time the last counts
 */
public record StrengthHistory(List<DatedStrength> standardisations) {

  public StrengthHistory {
    standardisations = List.copyOf(standardisations);
  }

  /** The last standardisation by then. */
  public Optional<DatedStrength> latest(Instant at) {
    return by(at).standardisations.stream().reduce((earlier, later) -> later);
  }

  /** The standardisation nearest in time, of two as near the earlier one. */
  public Optional<DatedStrength> nearest(Instant at) {
    return Stream.concat(latest(at).stream(), next(at).stream())
        .min(Comparator.comparing(each -> Duration.between(each.performedAt(), at).abs()));
  }

  /**
   * The strength {@linkplain DatedStrength#between between} the standardisations on either side;
   * before the first and after the last of them that one's.
   */
  public Optional<Measured<Normality>> interpolated(Instant at) {
    Optional<DatedStrength> next = next(at);
    return latest(at)
        .map(last -> next.isPresent() ? last.between(next.get(), at) : last.normality())
        .or(() -> next.map(DatedStrength::normality));
  }

  /** What was known then. */
  public StrengthHistory by(Instant at) {
    return new StrengthHistory(
        standardisations.stream().filter(each -> !each.performedAt().isAfter(at)).toList());
  }

  private Optional<DatedStrength> next(Instant at) {
    return standardisations.stream()
        .filter(each -> each.performedAt().isAfter(at))
        .reduce((one, other) -> other.performedAt().isAfter(one.performedAt()) ? one : other);
  }
}
