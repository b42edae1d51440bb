package org.sapotrace.pages;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;

/**
 * The clock on the wall: times are typed and shown as it tells them.
 *
 * @param zone where it hangs
 */
record WallClock(ZoneId zone) {

  private static final DateTimeFormatter TYPED = DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm");
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.UK);
  private static final DateTimeFormatter SHOWN =
      DateTimeFormatter.ofPattern("d MMMM uuuu, HH:mm", Locale.UK);

  /** The hour of a time comes twice, when clocks are put back; the text needs an offset. */
  static final class HourTwice extends IllegalArgumentException {
    private static final long serialVersionUID = 1L;

    private HourTwice(String message) {
      super(message);
    }
  }

  /** The clock of the machine that the service runs on. */
  static WallClock ofService() {
    return new WallClock(ZoneId.systemDefault());
  }

  /**
   * The moment at which this clock shows a time.
   *
   * @param local such as {@code 2026-03-04T09:20}
   * @throws IllegalArgumentException where it shows no such time, or shows it twice
   */
  Instant moment(String local) {
    LocalDateTime time = time(local);
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(time);
    if (offsets.isEmpty()) {
      throw new IllegalArgumentException(
          "There was no such time in %s: the clocks were put forward over it.".formatted(zone));
    }
    if (offsets.size() > 1) {
      throw new HourTwice(
          "That hour came twice in %s, as the clocks were put back: give %s for the first, or %s for the second."
              .formatted(zone, offsets.get(0), offsets.get(1)));
    }
    return moment(time, offsets.get(0));
  }

  /**
   * The moment of a time by a clock that is so far ahead of UTC.
   *
   * @param offset such as {@code +01:00} or {@code Z}
   * @throws IllegalArgumentException for no time
   */
  static Instant moment(String local, ZoneOffset offset) {
    return moment(time(local), offset);
  }

  private static Instant moment(LocalDateTime time, ZoneOffset offset) {
    return time.toInstant(offset).truncatedTo(ChronoUnit.MICROS);
  }

  /**
   * The offset that a text stands for.
   *
   * @throws IllegalArgumentException for any other text
   */
  static ZoneOffset offset(String text) {
    try {
      return ZoneOffset.of(text.replace('\u2212', '-'));
    } catch (DateTimeException noOffset) {
      throw new IllegalArgumentException("Write an offset such as +01:00, or Z for UTC.", noOffset);
    }
  }

  private static LocalDateTime time(String local) {
    try {
      return LocalDateTime.parse(local.replace(' ', 'T'));
    } catch (DateTimeException noTime) {
      throw new IllegalArgumentException("Write date and time such as 2026-03-04 09:20.", noTime);
    }
  }

  /** A moment as it is typed, to the minute. */
  String typed(Instant moment) {
    return TYPED.format(moment.atZone(zone));
  }

  /** A moment as it is read. */
  String shown(Instant moment) {
    return SHOWN.format(moment.atZone(zone));
  }

  /** The same with how far this clock is ahead of UTC then. */
  String shownWithOffset(Instant moment) {
    return shown(moment) + " " + offsetName(moment);
  }

  /** The day of a moment. */
  String day(Instant moment) {
    return DAY.format(moment.atZone(zone));
  }

  /** The clock's name with its offset at some time, such as {@code Europe/Berlin, UTC+01:00}. */
  String name(Instant at) {
    String ahead = offsetName(at);
    String place = zone.getId();
    return place.equals("Z") || place.endsWith("UTC") || place.equals(ahead)
        ? ahead
        : place + ", " + ahead;
  }

  private String offsetName(Instant at) {
    ZoneOffset offset = zone.getRules().getOffset(at);
    return offset.equals(ZoneOffset.UTC) ? "UTC" : "UTC" + offset;
  }
}
