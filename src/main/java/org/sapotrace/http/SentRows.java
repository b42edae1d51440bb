package org.sapotrace.http;

import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * The rows of a body as they come in, of which never more than one is held. A byte order mark in
 * front of the first row is no part of it.
 */
public final class SentRows {

  /** The longest row that is taken, in bytes. */
  public static final int LONGEST = 1 << 20;

  private static final byte[] BYTE_ORDER_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};

  /** Where a row ends. */
  public enum Form {
    /** At each line feed. */
    LINES,
    /** At each line feed that stands in no quotes: RFC 4180, section 2. */
    QUOTED
  }

  /**
   * A row.
   *
   * @param number counting from 1, empty rows included
   * @param bytes without what ends the row; the first of them where it is too long
   * @param isTooLong whether there were more than {@link #LONGEST}
   */
  // The bytes are the reader's alone, so that they are not copied once more.
  @SuppressWarnings("ArrayRecordComponent")
  public record Row(int number, byte[] bytes, boolean isTooLong) {}

  /** Where in a row the reader is. */
  private enum Place {
    FIELD_BEGINS,
    PLAIN,
    IN_QUOTES,
    QUOTE_IN_QUOTES
  }

  private final InputStream body;
  private final Form form;
  private final MessageDigest read = SentBody.sha256();
  private final byte[] buffer = new byte[1 << 16];
  private int from;
  private int filled;
  private int number;

  private byte[] row = new byte[1 << 10];
  private int length;

  public SentRows(InputStream body, Form form) {
    this.body = body;
    this.form = form;
  }

  /**
   * The next row; null at the end of the body.
   *
   * @throws IOException where the body breaks off
   */
  public @Nullable Row next() throws IOException {
    length = 0;
    Place place = Place.FIELD_BEGINS;
    boolean any = false;
    while (from < filled || fill()) {
      any = true;
      int end = from;
      boolean ended = false;
      while (end < filled && !ended) {
        byte next = buffer[end++];
        ended = next == '\n' && place != Place.IN_QUOTES;
        place = form == Form.LINES ? place : after(place, next);
      }
      take(end, ended);
      if (ended) {
        return row();
      }
    }
    return any ? row() : null;
  }

  private static Place after(Place place, byte next) {
    return switch (place) {
      case IN_QUOTES -> next == '"' ? Place.QUOTE_IN_QUOTES : place;
      case QUOTE_IN_QUOTES -> next == '"' ? Place.IN_QUOTES : plain(next);
      case FIELD_BEGINS -> next == '"' ? Place.IN_QUOTES : plain(next);
      case PLAIN -> plain(next);
    };
  }

  private static Place plain(byte next) {
    return next == ',' ? Place.FIELD_BEGINS : Place.PLAIN;
  }

  /** Takes what was read up to an end over into the row, as far as there is room. */
  private void take(int end, boolean ended) {
    read.update(buffer, from, end - from);
    int more = end - from - (ended ? 1 : 0);
    int room = Math.min(more, LONGEST + BYTE_ORDER_MARK.length + 1 - length);
    if (length + room > row.length) {
      row = Arrays.copyOf(row, Math.max(2 * row.length, length + room));
    }
    System.arraycopy(buffer, from, row, length, room);
    length += room;
    from = end;
  }

  private Row row() {
    number++;
    int begin =
        number == 1
                && length >= BYTE_ORDER_MARK.length
                && Arrays.equals(row, 0, BYTE_ORDER_MARK.length, BYTE_ORDER_MARK, 0, 3)
            ? BYTE_ORDER_MARK.length
            : 0;
    int end = Math.min(length, begin + LONGEST);
    return new Row(number, Arrays.copyOfRange(row, begin, end), length - begin > LONGEST);
  }

  private boolean fill() throws IOException {
    from = 0;
    filled = Math.max(0, body.read(buffer));
    return filled > 0;
  }

  /** Reads to the end without looking at what comes. */
  public void pass() throws IOException {
    do {
      read.update(buffer, from, filled - from);
    } while (fill());
  }

  /** The SHA-256 of all that was read so far. */
  public String fingerprint() {
    try {
      return HexFormat.of().formatHex(((MessageDigest) read.clone()).digest());
    } catch (CloneNotSupportedException everyJavaCan) {
      throw new IllegalStateException(everyJavaCan);
    }
  }
}
