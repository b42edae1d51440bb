package org.sapotrace.ledger;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * By which a revision of a result is known again: a hash over all that was made of it.
 *
 * @param revision counting the revisions of the result from 1
 */
public record RevisionSeal(int revision, String hash) {

  // Both are neighbours in canonical JSON; in the text of a reason the quotes would be escaped.
  private static final Pattern SEALED =
      Pattern.compile("\"revision\":([0-9]{1,9}),\"seal\":\"([0-9a-f]{64})\"");

  /**
   * The hash of the canonical JSON of a revision.
   *
   * @param entered JSON, in any form
   * @param determination likewise
   */
  static String of(double value, boolean withdrawn, String entered, String determination) {
    return Hash.of(CanonicalJson.of(revision(value, withdrawn, entered, determination)));
  }

  /**
   * The same of JSON that is canonical.
   *
   * @param entered canonical JSON
   * @param determination likewise
   */
  public static String ofCanonical(
      double value, boolean withdrawn, String entered, String determination) {
    return Hash.of(revision(value, withdrawn, entered, determination));
  }

  /** Canonical where its parts are: the names are in order. */
  private static String revision(
      double value, boolean withdrawn, String entered, String determination) {
    return "{\"determination\":"
        + determination
        + ",\"entered\":"
        + entered
        + ",\"value\":"
        + CanonicalJson.number(value)
        + ",\"withdrawn\":"
        + withdrawn
        + "}";
  }

  /** The seal that an entry holds; empty for one that is about no result. */
  static Optional<RevisionSeal> in(Entry entry) {
    if (!entry.action().startsWith("result-")) {
      return Optional.empty();
    }
    Matcher sealed = SEALED.matcher(entry.content());
    return sealed.find()
        ? Optional.of(new RevisionSeal(Integer.parseInt(sealed.group(1)), sealed.group(2)))
        : Optional.empty();
  }
}
