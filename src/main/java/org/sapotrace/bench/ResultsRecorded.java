package org.sapotrace.bench;

import org.sapotrace.monitoring.Hindsight;
import org.sapotrace.productline.Stream;

/**
 * Results of a stream were recorded, corrected or computed again. Fired once for all of them, in
 * the transaction that does so and under the stream's lock, after the chart was judged.
 *
 * @param hindsight of which of them nobody is told
 */
public record ResultsRecorded(Stream stream, Hindsight hindsight) {

  /** Of those somebody is told, however old they are. */
  ResultsRecorded(Stream stream) {
    this(stream, Hindsight.NONE);
  }
}
