package org.sapotrace.monitoring;

import org.sapotrace.productline.Stream;

/** Somebody adopted limits; fired in that transaction. */
public record LimitsAdopted(Stream stream, LimitsRevision limits) {}
