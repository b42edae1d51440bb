package org.sapotrace.ledger;

import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The entries on record, which are added to and never changed. */
public interface Entries {

  /**
   * An entry and the head that first tells of it.
   *
   * @param head the number of the head
   */
  record Read(long head, Entry entry) {}

  /** A place in the order of reading. */
  record Place(long head, String chain, long seq) {

    static final Place BEGINNING = new Place(0, "", 0);
  }

  /**
   * Which entries are asked for.
   *
   * @param lines those of these lines; null for all, and those of no line
   * @param stream those of streams of that slug; null for any
   */
  record Filter(@Nullable Collection<String> lines, @Nullable String stream) {}

  /**
   * Who did something.
   *
   * @param subject names what was changed
   */
  record Done(Act act, String subject, String actor) {}

  /** JSON in its canonical form. */
  String canonical(Object content);

  /** Puts entries behind those of their chains, whose locks the caller holds. */
  void append(List<Entry.Unchained> entries);

  /** Entries that heads tell of, by their heads, then chains, then numbers. */
  List<Read> after(Place exclusive, Filter filter, int most);

  /** Who adopted limits of a stream, and who changed its results, in order. */
  List<Done> changes(UUID stream);
}
