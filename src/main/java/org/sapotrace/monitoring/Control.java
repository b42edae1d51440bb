package org.sapotrace.monitoring;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.ControlLimits;

/**
 * Where a result stands on its chart.
 *
 * @param position counting from 1
 * @param limits the limits it was judged by; null before there are any
 * @param own the same for results of as many values as it; null likewise
 * @param state of what raises signals, after it; null before there are limits
 * @param signals those that hold or go on at it
 * @param firstWatch what is said of it while no limits judge it; null for nothing
 */
public record Control(
    int position,
    @Nullable LimitsRevision limits,
    @Nullable ControlLimits own,
    @Nullable ChartState state,
    List<Signal> signals,
    @Nullable FirstWatch firstWatch) {}
