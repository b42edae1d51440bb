package org.sapotrace.forecast;

import java.time.Duration;
import java.time.format.DateTimeParseException;
import org.sapotrace.refusal.Refusal;

/**
 * How far ahead somebody is to be told that a limit will be crossed.
 *
 * @param duration above 0, at most a year
 */
public record ForecastHorizon(Duration duration) {

  /** What holds unless it is set otherwise. */
  public static final String DEFAULT = "P7D";

  private static final Duration LONGEST = Duration.ofDays(366);
  private static final double MILLIS_A_DAY = Duration.ofDays(1).toMillis();

  public ForecastHorizon {
    if (duration.isNegative() || duration.isZero() || duration.compareTo(LONGEST) > 0) {
      throw refused(duration.toString());
    }
  }

  /**
   * The horizon that an ISO 8601 duration such as {@code P7D} or {@code PT36H} says.
   *
   * @throws Refusal for any other text, and outside the range
   */
  public static ForecastHorizon of(String text) {
    try {
      return new ForecastHorizon(Duration.parse(text));
    } catch (DateTimeParseException unreadable) {
      throw refused(text);
    }
  }

  private static Refusal refused(String text) {
    return Refusal.impossible(
        "SAPOTRACE_FORECAST_HORIZON is \"%s\": set a duration above 0 and up to a year, such as P7D for 7 days or PT36H for 36 hours."
            .formatted(text));
  }

  double days() {
    return duration.toMillis() / MILLIS_A_DAY;
  }
}
