package org.sapotrace.monitoring;

import org.sapotrace.productline.Stream;

/**
 * A signal was raised; fired in the transaction that raises it.
 *
 * @param at the result at which it was raised
 * @param limits the limits it was found under
 * @param isHindsight whether it was found among results on record, as limits were laid down, or of
 *     the past, as they were imported; and neither holds at a result recorded just now nor stands
 *     where one that lapsed has stood
 */
public record SignalRaised(
    Stream stream, Signal signal, ChartedResult at, LimitsRevision limits, boolean isHindsight) {}
