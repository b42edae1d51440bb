package org.sapotrace.monitoring;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Where a result stands on its chart.
 *
 * @param position counting from 1
 * @param limits the limits it was judged by; null before there are any
 * @param signals those that hold at it
 */
public record Control(int position, @Nullable LimitsRevision limits, List<Signal> signals) {}
