package org.sapotrace.bench;

import org.sapotrace.productline.Stream;

/**
 * A result was found nonconforming that was not so before: a new one, or a revision of one. Fired
 * in the transaction that records it.
 *
 * @param isHindsight whether it is of the past, and was imported
 */
public record TurnedNonconforming(Stream stream, RecordedResult result, boolean isHindsight) {}
