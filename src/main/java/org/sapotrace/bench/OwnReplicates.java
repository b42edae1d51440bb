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
   * The determinations among the latest results of a stream.
   *
   * @param from first time of sampling, inclusive; null for no bound
   * @param to last time of sampling, inclusive; null for no bound
   * @param fewest how many replicates a determination has at least
   * @param looked how many results are looked at
   * @return in the order of sampling, then of recording
   */
  List<Determined> among(
      UUID stream, @Nullable Instant from, @Nullable Instant to, int fewest, int looked);
}
