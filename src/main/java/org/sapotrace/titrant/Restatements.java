package org.sapotrace.titrant;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The restatements on record. */
public interface Restatements {

  /**
   * Adds a restatement.
   *
   * @param stream the strength stream of the lot, whose lock the caller holds
   */
  void add(UUID stream, Restatement restatement);

  Optional<Restatement> restatement(String lot, UUID id);

  /**
   * The restatements of a lot in the order of recording.
   *
   * @param after the identifier behind which to begin (exclusive); null for the beginning
   */
  List<Restatement> ofLot(String lot, @Nullable UUID after, int most);
}
