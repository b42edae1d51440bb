package org.sapotrace.ledger;

import org.jspecify.annotations.Nullable;

/**
 * Whether the ledger is as it was written.
 *
 * @param entries how many there are
 * @param firstBroken the first that is not, in the order of reading; null where all are
 */
public record Verification(boolean intact, long entries, @Nullable Broken firstBroken) {

  /**
   * What is not as it was written.
   *
   * @param head the head that tells of it; null for an entry that none tells of yet
   * @param chain the chain of the entry; null where the head itself is broken
   * @param seq the number of the entry; null likewise, and where no entry tells of what is on
   *     record
   * @param problem what is wrong, in a sentence
   */
  public record Broken(
      @Nullable Long head, @Nullable String chain, @Nullable Long seq, String problem) {}

  static Verification of(long entries, @Nullable Broken firstBroken) {
    return new Verification(firstBroken == null, entries, firstBroken);
  }
}
