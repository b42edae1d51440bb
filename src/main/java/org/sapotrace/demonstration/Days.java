package org.sapotrace.demonstration;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;

/**
 * The half-year of the plant. What happens is told by the number of the day, from 0; only here it
 * gets a date.
 *
 * @param first the date of day 0
 */
record Days(LocalDate first) {

  static final int COUNT = 182;

  /** The days up to a date, inclusive. */
  static Days until(LocalDate last) {
    return new Days(last.minusDays(COUNT - 1));
  }

  LocalDate date(int day) {
    return first.plusDays(day);
  }

  Instant at(int day, LocalTime time) {
    return date(day).atTime(time).toInstant(ZoneOffset.UTC);
  }

  Instant at(int day, int hour) {
    return at(day, LocalTime.of(hour, 0));
  }
}
