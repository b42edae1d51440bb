package org.sapotrace.chemistry;

import org.sapotrace.measure.Volume;

/**
 * One titration of a sample to a single end point.
 *
 * @param titrant V, the titrant used up to the end point
 * @param portion the sample titrated
 */
public record Replicate(Volume titrant, TestPortion portion) {}
