package org.sapotrace.bench;

import org.sapotrace.productline.Stream;

/**
 * Results of a stream were recorded, corrected or computed again. Fired once for all of them, in
 * the transaction that does so and under the stream's lock, after the chart was judged.
 */
public record ResultsRecorded(Stream stream) {}
