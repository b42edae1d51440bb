package org.sapotrace.bench;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The results on record. */
public interface Results {

  /**
   * A place in the order of a stream.
   *
   * @param sampledAt when the sample was taken
   * @param result the result
   */
  record Place(Instant sampledAt, UUID result) {}

  /**
   * Which results of a stream are asked for.
   *
   * @param from first time of sampling, inclusive; null for no bound
   * @param to last time of sampling, inclusive; null for no bound
   * @param after the place behind which to begin (exclusive); null for the beginning
   */
  record Selection(@Nullable Instant from, @Nullable Instant to, @Nullable Place after) {}

  /**
   * The figure of a result in short.
   *
   * @param value in the stream's unit
   * @param standardUncertainty of it; null where unknown
   * @param effectiveDegreesOfFreedom of that; null where unknown or infinite
   */
  record Found(
      Instant sampledAt,
      double value,
      @Nullable Double standardUncertainty,
      @Nullable Double effectiveDegreesOfFreedom) {}

  void add(RecordedResult result);

  /** Puts new results of one stream on record together, of which each has one revision. */
  void addAll(List<RecordedResult> some);

  /** Records the latest revision of a result that is on record. */
  void revise(RecordedResult result);

  /** The stream that a result belongs to, without looking at the result. */
  Optional<UUID> streamOf(UUID result);

  Optional<RecordedResult> result(UUID id);

  /** The last titration of a stream whose sample was taken before and which was not withdrawn. */
  Optional<Titration> titrationBefore(UUID stream, Instant sampledAt);

  /** What the results of a stream found that were not withdrawn, in the order of sampling. */
  List<Found> found(UUID stream);

  /**
   * The streams with results that stand as titrated with a titrant lot, in the order of their
   * identifiers.
   *
   * @param from when the first sample was taken (inclusive)
   */
  List<UUID> streamsTitratedWith(String lot, Instant from);

  /** Whether any result stands as titrated with that titrant lot. */
  boolean anyTitratedWith(String lot);

  /** All results of some batches, in the order of sampling, then of recording. */
  List<RecordedResult> ofBatches(UUID stream, Collection<String> batches);

  /** The batches with a result in a stream, each once. */
  List<String> batches(UUID stream);

  /** Results in the order of sampling, then of recording. */
  List<RecordedResult> select(UUID stream, Selection selection, int most);
}
