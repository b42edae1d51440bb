package org.sapotrace.bench;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The results on record in short, as they count now. */
public interface Samples {

  /**
   * A result that was not withdrawn, by its latest revision; null for what is unknown.
   *
   * @param value in the stream's unit
   * @param standardUncertainty of it, in the same unit
   * @param detectionLimit in the same unit
   * @param litres that had gone through, in L
   * @param bedVolumes that had gone through
   * @param inletMgPerKg the soap before the wash or tower that was given with it, in mg/kg
   */
  record Sample(
      UUID result,
      String batch,
      Instant sampledAt,
      double value,
      @Nullable Double standardUncertainty,
      @Nullable Double detectionLimit,
      @Nullable Double litres,
      @Nullable Double bedVolumes,
      @Nullable Double inletMgPerKg) {}

  /**
   * Which results are looked for.
   *
   * @param from first time of sampling, inclusive; null for no bound
   * @param counted whether only those that say what had gone through
   * @param most the latest so many
   */
  record Search(@Nullable Instant from, boolean counted, int most) {}

  /** The latest results of a stream that fit, in the order of sampling, then of recording. */
  List<Sample> latest(UUID stream, Search search);

  /** All results of some batches, in the same order. */
  List<Sample> ofBatches(UUID stream, Collection<String> batches);
}
