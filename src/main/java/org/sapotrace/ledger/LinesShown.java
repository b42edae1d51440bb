package org.sapotrace.ledger;

import java.util.Optional;
import java.util.Set;

/** The lines of which the ledger is shown to whoever asks. */
public interface LinesShown {

  /** Their slugs; empty where it is every line, and what belongs to none. */
  Optional<Set<String>> slugs();

  /** Whether there is such a line, shown or not. */
  boolean isLine(String slug);

  /** Whether a line has such a stream. */
  boolean isStream(String line, String slug);
}
