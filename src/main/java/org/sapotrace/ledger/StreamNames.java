package org.sapotrace.ledger;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** Tells how a stream is named, for whoever reads of it in the ledger. */
public interface StreamNames {

  /**
   * The slugs of a stream.
   *
   * @param line of its line; null for one under no line
   * @param stream its own
   */
  record Names(@Nullable String line, String stream) {}

  /** The names of a stream that is on record, or is being put there in this transaction. */
  Names names(UUID stream);
}
