package org.sapotrace.ledger;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * An entry of the ledger.
 *
 * @param chain where it stands
 * @param seq counts the entries of the chain from 1
 * @param at when it was entered, to the microsecond
 * @param actor who did it
 * @param action what was done; the name of an {@link Act}
 * @param line the slug of the line that it belongs to; null for none
 * @param stream the slug of its stream; null for none
 * @param subject names what was changed
 * @param content canonical JSON
 * @param previousHash the hash of the entry before it in the chain
 * @param hash its own, as it stands on record
 */
public record Entry(
    String chain,
    long seq,
    Instant at,
    String actor,
    String action,
    @Nullable String line,
    @Nullable String stream,
    String subject,
    String content,
    String previousHash,
    String hash) {

  /**
   * An entry that is not in its chain yet.
   *
   * @param content canonical JSON
   */
  public record Unchained(Deed deed, Instant at, String actor, String content) {

    /**
     * The entry in its place.
     *
     * @param lastSeq the number of the entry before it; 0 for none
     * @param lastHash the hash of that; null for none
     */
    public Entry behind(long lastSeq, @Nullable String lastHash) {
      Entry open =
          new Entry(
              deed.chain(),
              lastSeq + 1,
              at,
              actor,
              deed.act().id(),
              deed.line(),
              deed.stream(),
              deed.subject(),
              content,
              lastHash == null ? Hash.NONE : lastHash,
              "");
      return open.closed();
    }
  }

  private Entry closed() {
    return new Entry(
        chain,
        seq,
        at,
        actor,
        action,
        line,
        stream,
        subject,
        content,
        previousHash,
        hash(previousHash));
  }

  /** The hash that belongs to it behind another. */
  String hash(String previous) {
    return Hash.of(previous, canonical());
  }

  /** What is hashed: canonical JSON (RFC 8785), its members in the order of their names. */
  String canonical() {
    return "{\"action\":"
        + CanonicalJson.quoted(action)
        + ",\"actor\":"
        + CanonicalJson.quoted(actor)
        + ",\"at\":"
        + CanonicalJson.quoted(at.toString())
        + ",\"chain\":"
        + CanonicalJson.quoted(chain)
        + ",\"content\":"
        + content
        + ",\"line\":"
        + CanonicalJson.quoted(line)
        + ",\"seq\":"
        + seq
        + ",\"stream\":"
        + CanonicalJson.quoted(stream)
        + ",\"subject\":"
        + CanonicalJson.quoted(subject)
        + "}";
  }
}
