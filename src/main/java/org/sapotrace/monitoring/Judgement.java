package org.sapotrace.monitoring;

import java.util.Set;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.SignalRule;

/**
 * How a point was judged.
 *
 * @param limitsRevision the revision of the limits it was judged by
 * @param state of what raises signals, after it
 * @param rules the rules in use whose condition holds at it
 */
public record Judgement(int limitsRevision, ChartState state, Set<SignalRule> rules) {}
