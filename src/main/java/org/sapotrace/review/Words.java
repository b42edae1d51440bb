package org.sapotrace.review;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Rounding;

/** How times, numbers and names stand in a review. */
final class Words {

  private static final String NONE = "none";

  private Words() {}

  /** A time, such as {@code 4 Mar 2026 09:20}, in UTC. */
  static String time(Instant at) {
    return write(at, "d MMM uuuu HH:mm");
  }

  static String day(Instant at) {
    return write(at, "d MMM uuuu");
  }

  private static String write(Instant at, String pattern) {
    return LocalDateTime.ofInstant(at, ZoneOffset.UTC)
        .format(DateTimeFormatter.ofPattern(pattern, Locale.ENGLISH));
  }

  static String number(@Nullable Double value) {
    return value == null ? NONE : Rounding.of(value);
  }

  /** A number of things, such as {@code 2 results}. */
  static String count(long n, String thing) {
    String plural = thing.endsWith("ch") ? "es" : "s";
    return n + " " + (n == 1 ? thing : thing + plural);
  }

  /** Some names, and how many more there are, such as {@code K-1, K-2 and 3 more}. */
  static String names(List<String> names, int most) {
    String shown = String.join(", ", names.subList(0, Math.min(most, names.size())));
    return names.size() > most ? "%s and %d more".formatted(shown, names.size() - most) : shown;
  }

  /** A sentence that begins with a capital and ends with a stop. */
  static String sentence(String text) {
    if (text.isBlank()) {
      return "None.";
    }
    String stop = text.endsWith(".") ? "" : ".";
    return text.substring(0, 1).toUpperCase(Locale.ENGLISH) + text.substring(1) + stop;
  }
}
