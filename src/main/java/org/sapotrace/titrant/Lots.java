package org.sapotrace.titrant;

import java.util.List;
import java.util.Optional;

/** The titrant lots on record. */
public interface Lots {

  Optional<TitrantLot> lot(String slug);

  /** The lots in the order of their slugs, after the one given (exclusive). */
  List<TitrantLot> after(String slugExclusive, int most);

  /**
   * Keeps a lot as it is until the transaction ends, while others may do so too. To be called
   * before it is looked at by whoever records something on the strength of it.
   */
  void hold(String slug);

  /**
   * The lot, held against every other writer and {@linkplain #hold holder} until the transaction
   * ends, as is its slug where there is none.
   */
  Optional<TitrantLot> lock(String slug);

  /** Adds a lot, or changes it; the caller holds its lock. */
  void save(TitrantLot lot);
}
