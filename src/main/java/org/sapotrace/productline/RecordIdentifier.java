package org.sapotrace.productline;

import java.security.SecureRandom;
import java.time.Instant;
import java.util.UUID;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;

/**
 * Identifiers of what is recorded: UUIDs of version 7 that only ever rise within a stream, so that
 * their order is the order of recording even when the clock steps back.
 *
 * <p>Layout (RFC 9562, section 5.7): 48 bits of Unix time in milliseconds, 4 bits of version, 12
 * random bits, 2 bits of variant, 62 random bits. Where the time has not moved on since the last
 * identifier, its random part is counted up instead (section 6.2, method 2).
 */
public final class RecordIdentifier {

  private static final long VERSION_7 = 0x7000L;
  private static final long VARIANT = 0x8000_0000_0000_0000L;
  private static final long LOW_62_BITS = 0x3FFF_FFFF_FFFF_FFFFL;

  // Unpredictable, so that knowing one identifier does not help to guess another.
  private static final SecureRandom RANDOM = new SecureRandom();

  private RecordIdentifier() {}

  /**
   * An identifier later than the last one.
   *
   * @param last the last identifier in the same stream; null for the first
   */
  public static UUID after(@Nullable UUID last, Instant now) {
    return after(last, now, RANDOM);
  }

  static UUID after(@Nullable UUID last, Instant now, RandomGenerator random) {
    long millis = now.toEpochMilli();
    if (last != null && millisOf(last) >= millis) {
      return successor(last);
    }
    return of(millis, random.nextInt(1 << 12), random.nextLong());
  }

  /** The time in an identifier, in milliseconds since 1970. */
  static long millisOf(UUID identifier) {
    return identifier.getMostSignificantBits() >>> 16;
  }

  static UUID of(long millis, int random12, long random62) {
    return new UUID(
        (millis << 16) | VERSION_7 | (random12 & 0xFFF), VARIANT | (random62 & LOW_62_BITS));
  }

  private static UUID successor(UUID last) {
    long low = (last.getLeastSignificantBits() & LOW_62_BITS) + 1;
    if (low <= LOW_62_BITS) {
      return new UUID(last.getMostSignificantBits(), VARIANT | low);
    }
    int high = (int) (last.getMostSignificantBits() & 0xFFF) + 1;
    // When the random bits are used up, the next millisecond is borrowed.
    return high <= 0xFFF ? of(millisOf(last), high, 0) : of(millisOf(last) + 1, 0, 0);
  }
}
