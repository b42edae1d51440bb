package org.sapotrace.ledger;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Goes along the chains and the heads, and remembers of each how far it came. */
final class ChainCheck {

  /** How far a chain was followed, and the last entry that a head told of. */
  private record End(long seq, String hash, long told) {

    static final End NONE = new End(0, Hash.NONE, 0);
  }

  private final Map<String, End> ends = new HashMap<>();
  private long lastHead;
  private String lastHeadHash = Hash.NONE;

  /** What is wrong with an entry behind those that were followed. */
  Optional<Verification.Broken> follow(@Nullable Long head, Entry entry) {
    End end = ends.getOrDefault(entry.chain(), End.NONE);
    long expected = end.seq + 1;
    if (entry.seq() != expected) {
      return broken(head, entry.chain(), expected, "The entry is missing.");
    }
    if (!entry.previousHash().equals(end.hash)) {
      return broken(
          head, entry.chain(), expected, "The entry does not hold the hash of the one before it.");
    }
    if (!entry.hash().equals(entry.hash(end.hash))) {
      return broken(
          head, entry.chain(), expected, "The entry was changed: its hash belongs to another.");
    }
    ends.put(entry.chain(), new End(expected, entry.hash(), end.told));
    return Optional.empty();
  }

  /** What is wrong with a head whose entries were followed. */
  Optional<Verification.Broken> follow(Head head) {
    for (Head.Reached reached : head.chains()) {
      Optional<Verification.Broken> broken = follow(head.number(), reached);
      if (broken.isPresent()) {
        return broken;
      }
    }
    if (head.number() != lastHead + 1) {
      return broken(lastHead + 1, "The head is missing.");
    }
    if (!head.previousHash().equals(lastHeadHash)) {
      return broken(head.number(), "The head does not hold the hash of the one before it.");
    }
    if (!head.hash().equals(head.hash(lastHeadHash))) {
      return broken(head.number(), "The head was changed: its hash belongs to another.");
    }
    lastHead = head.number();
    lastHeadHash = head.hash();
    return Optional.empty();
  }

  private Optional<Verification.Broken> follow(long head, Head.Reached reached) {
    End end = ends.getOrDefault(reached.chain(), End.NONE);
    if (end.seq < reached.last()) {
      return broken(
          head,
          reached.chain(),
          end.seq + 1,
          "The entry is missing: the head tells of %d in this chain.".formatted(reached.last()));
    }
    if (reached.first() != end.told + 1 || !reached.hash().equals(end.hash)) {
      return broken(head, "The head tells of other entries than there are.");
    }
    ends.put(reached.chain(), new End(end.seq, end.hash, reached.last()));
    return Optional.empty();
  }

  private static Optional<Verification.Broken> broken(long head, String problem) {
    return Optional.of(new Verification.Broken(head, null, null, problem));
  }

  private static Optional<Verification.Broken> broken(
      @Nullable Long head, String chain, long seq, String problem) {
    return Optional.of(new Verification.Broken(head, chain, seq, problem));
  }
}
