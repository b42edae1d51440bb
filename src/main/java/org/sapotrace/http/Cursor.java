package org.sapotrace.http;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.Base64;

/**
 * A place in a list, between the entry it names and the next one.
 *
 * <p>To its holder it is opaque: the URL-safe Base64 of a digest over the list's name and the
 * place, followed by the place. The digest tells a cursor of another list, or one cut short, from a
 * good one; it is no secret, and a cursor opens nothing that the list would not show.
 *
 * @param key what the list is sorted by, of the entry
 * @param id the identifier of the entry, which decides between equal keys
 */
public record Cursor(String key, String id) {

  private static final int DIGEST_BYTES = 8;
  private static final String SEPARATOR = "\0";

  public Cursor {
    if (key.contains(SEPARATOR) || id.contains(SEPARATOR)) {
      throw new IllegalArgumentException("A cursor's key and id hold no NUL");
    }
  }

  /**
   * The cursor as it is handed out.
   *
   * @param list names the list with whatever filters it, such as its path
   */
  public String text(String list) {
    byte[] place = (key + SEPARATOR + id).getBytes(StandardCharsets.UTF_8);
    byte[] digest = digest(list, place);
    byte[] whole = Arrays.copyOf(digest, DIGEST_BYTES + place.length);
    System.arraycopy(place, 0, whole, DIGEST_BYTES, place.length);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(whole);
  }

  /** The cursor that was handed out for that list; a 400 for any other text. */
  public static Cursor parse(String text, String list) {
    try {
      byte[] whole = Base64.getUrlDecoder().decode(text);
      if (whole.length > DIGEST_BYTES) {
        byte[] place = Arrays.copyOfRange(whole, DIGEST_BYTES, whole.length);
        String[] parts = new String(place, StandardCharsets.UTF_8).split(SEPARATOR, -1);
        if (parts.length == 2
            && Arrays.equals(digest(list, place), Arrays.copyOf(whole, DIGEST_BYTES))) {
          return new Cursor(parts[0], parts[1]);
        }
      }
    } catch (IllegalArgumentException notBase64) {
      // Refused below, as any other text that is not a cursor.
    }
    throw Problem.of(
            ProblemType.BAD_PARAMETER,
            "cursor is not one that this list handed out: begin again without it.")
        .asException();
  }

  private static byte[] digest(String list, byte[] place) {
    try {
      MessageDigest sha = MessageDigest.getInstance("SHA-256");
      sha.update((list + SEPARATOR).getBytes(StandardCharsets.UTF_8));
      return Arrays.copyOf(sha.digest(place), DIGEST_BYTES);
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }
}
