package org.sapotrace.forecast;

import java.time.Instant;
import java.util.UUID;
import org.sapotrace.productline.Stream;

/**
 * By its forecast a stream will cross its specification limit soon. Fired in the transaction that
 * records what shows it, and not again until the forecast has moved away.
 *
 * @param result the latest one
 * @param sampledAt of that, from which on what is left counts
 * @param remaining what is left
 * @param days how long that takes at the rate of late
 * @param reason the forecast in words
 */
public record CrossingForeseen(
    Stream stream,
    Outlook.Kind kind,
    UUID result,
    Instant sampledAt,
    Outlook.Remaining remaining,
    double days,
    String reason) {}
