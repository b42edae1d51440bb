package org.sapotrace.titrant;

import java.time.Duration;
import java.time.format.DateTimeParseException;
import org.sapotrace.refusal.Refusal;

/**
 * How long a standardisation counts without a caution.
 *
 * @param duration above 0, at most ten years
 */
public record StandardisationValidity(Duration duration) {

  /** What holds unless it is set otherwise. */
  public static final String DEFAULT = "P30D";

  private static final Duration LONGEST = Duration.ofDays(3653);

  public StandardisationValidity {
    if (duration.isNegative() || duration.isZero() || duration.compareTo(LONGEST) > 0) {
      throw refused(duration.toString());
    }
  }

  /**
   * The validity that an ISO 8601 duration such as {@code P30D} or {@code PT36H} says.
   *
   * @throws Refusal for any other text, and outside the range
   */
  public static StandardisationValidity of(String text) {
    try {
      return new StandardisationValidity(Duration.parse(text));
    } catch (DateTimeParseException unreadable) {
      throw refused(text);
    }
  }

  private static Refusal refused(String text) {
    return Refusal.impossible(
        "SAPOTRACE_STANDARDISATION_VALID_FOR is \"%s\": set a duration above 0 and up to ten years, such as P30D for 30 days or PT36H for 36 hours."
            .formatted(text));
  }
}
