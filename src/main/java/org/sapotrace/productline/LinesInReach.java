package org.sapotrace.productline;

import java.util.Optional;
import java.util.Set;

/** Which lines may be touched by whoever asks. */
public interface LinesInReach {

  /** The slugs of the lines; empty where it is every line, those still to come included. */
  Optional<Set<String>> slugs();
}
