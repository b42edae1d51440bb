package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The signals of the streams. */
public interface Signals {

  /**
   * Which signals are asked for.
   *
   * @param streams those of these streams; null for all
   * @param state those in this state; null for any
   */
  record Filter(@Nullable List<UUID> streams, Signal.@Nullable State state) {}

  Optional<Signal> signal(UUID id);

  /** The stream of a signal. */
  Optional<UUID> streamOf(UUID id);

  /** Signals in the order in which they were raised, after the one given (exclusive). */
  List<Signal> after(@Nullable UUID exclusive, Filter filter, int most);

  /** Signals of a stream in that state, the one raised last first. */
  List<Signal> latest(UUID stream, Signal.State state, int most);

  /**
   * Signals of a stream that have not lapsed and were seen at that time or later, in the order in
   * which they were raised.
   */
  List<Signal> liveSince(UUID stream, Instant sampledAt);

  /** The signals of a stream of which somebody found something out, in order; lapsed ones too. */
  List<Signal> explained(UUID stream);

  /** Saves all of a signal but its finding. */
  void save(Signal signal);

  /** Puts a finding on record, which holds from then on. */
  void explain(Signal signal, Finding finding);
}
