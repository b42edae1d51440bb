package org.sapotrace.monitoring;

import org.sapotrace.productline.Stream;

/** A signal turned out not to hold; fired in the transaction in which it lapses. */
public record SignalLapsed(Stream stream, Signal signal) {}
