package org.sapotrace.http;

import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;

/** Moments and days as they are written in requests. */
final class Times {

  static final String MOMENT_EXPECTED =
      "must be a date and time with its offset from UTC, such as 2026-03-04T09:20:00Z or"
          + " 2026-03-04T10:20:00+01:00";
  static final String DAY_EXPECTED = "must be a date, such as 2026-03-04";

  private static final int LAST_YEAR = 9999;

  private Times() {}

  /**
   * The moment that an RFC 3339 text names, to the microsecond, which is what the database keeps.
   *
   * @throws DateTimeParseException without an offset, or outside the years 1 to 9999
   */
  static Instant moment(String text) {
    OffsetDateTime moment = OffsetDateTime.parse(text);
    // In UTC, as an offset may carry the last hours of 9999 into a year of five digits.
    requireYear(text, moment.toInstant().atOffset(ZoneOffset.UTC).getYear());
    return moment.toInstant().truncatedTo(ChronoUnit.MICROS);
  }

  /**
   * The day that an ISO 8601 text names.
   *
   * @throws DateTimeParseException for anything else, or outside the years 1 to 9999
   */
  static LocalDate day(String text) {
    LocalDate day = LocalDate.parse(text);
    requireYear(text, day.getYear());
    return day;
  }

  private static void requireYear(String text, int year) {
    if (!(year >= 1 && year <= LAST_YEAR)) {
      throw new DateTimeParseException("year outside 1 to 9999", text, 0);
    }
  }
}
