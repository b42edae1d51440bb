package org.sapotrace.bench;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The replicates of a stream's titrations on record, as they count now. */
public interface OwnReplicates {

  /**
   * One determination, not withdrawn, by its latest revision.
   *
   * @param result its identifier
   * @param sampledAt when the sample was taken
   * @param analyst who titrated; null where nobody said
   * @param values what each replicate came to, in the stream's unit; one or more
   */
  record Determined(
      UUID result, String batch, Instant sampledAt, @Nullable String analyst, List<Double> values) {

    public Determined {
      values = List.copyOf(values);
    }
  }

  /**
   * Which determinations are looked for: the latest of those that fit.
   *
   * @param from first time of sampling, inclusive; null for no bound
   * @param to last time of sampling, inclusive; null for no bound
   * @param fewest how many replicates each has at least
   * @param looked among how many of the latest results they are looked for
   * @param most how many are wanted at most
   */
  record Search(@Nullable Instant from, @Nullable Instant to, int fewest, int looked, int most) {}

  /** Determinations of a stream, in the order of sampling, then of recording. */
  List<Determined> latest(UUID stream, Search search);
}
