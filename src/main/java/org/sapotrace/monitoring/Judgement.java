package org.sapotrace.monitoring;

import java.util.Set;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.RunState;

/**
 * How a point was judged.
 *
 * @param limitsRevision the revision of the limits it was judged by
 * @param state of the run rules after it
 * @param rules the rules in use whose condition holds at it
 */
public record Judgement(int limitsRevision, RunState state, Set<RunRule> rules) {}
