package org.sapotrace.ledger;

import static java.util.stream.Collectors.joining;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How far the chains were at a time.
 *
 * @param number counts the heads from 1
 * @param chains those that went on since the head before it, in the order of their names
 * @param previousHash the hash of the head before it
 * @param hash its own, as it stands on record
 */
public record Head(
    long number, Instant at, List<Reached> chains, String previousHash, String hash) {

  /**
   * How far a chain was.
   *
   * @param first the number of the first entry that no earlier head tells of
   * @param last the number of the last entry
   * @param hash the hash of the last entry
   * @param line the slug of the chain's line; null for none
   */
  public record Reached(String chain, long first, long last, String hash, @Nullable String line) {

    String canonical() {
      return "{\"chain\":%s,\"first\":%d,\"hash\":%s,\"last\":%d,\"line\":%s}"
          .formatted(
              CanonicalJson.quoted(chain),
              first,
              CanonicalJson.quoted(hash),
              last,
              CanonicalJson.quoted(line));
    }
  }

  public Head {
    chains = List.copyOf(chains);
  }

  /**
   * The head behind another.
   *
   * @param lastNumber that of the head before it; 0 for none
   * @param lastHash the hash of that; null for none
   */
  public static Head behind(
      long lastNumber, @Nullable String lastHash, Instant at, List<Reached> chains) {
    String previous = lastHash == null ? Hash.NONE : lastHash;
    Head open = new Head(lastNumber + 1, at, chains, previous, "");
    return new Head(lastNumber + 1, at, chains, previous, open.hash(previous));
  }

  /** The hash that belongs to it behind another. */
  String hash(String previous) {
    return Hash.of(previous, canonical());
  }

  /** What is hashed: canonical JSON (RFC 8785), its members in the order of their names. */
  String canonical() {
    return "{\"at\":%s,\"chains\":%s,\"number\":%d}"
        .formatted(
            CanonicalJson.quoted(at.toString()),
            chains.stream().map(Reached::canonical).collect(joining(",", "[", "]")),
            number);
  }
}
