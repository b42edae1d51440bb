package org.sapotrace.monitoring;

import org.jspecify.annotations.Nullable;

/**
 * A point and how it was judged.
 *
 * @param judgement null while there were no limits
 */
public record JudgedPoint(Point point, @Nullable Judgement judgement) {}
