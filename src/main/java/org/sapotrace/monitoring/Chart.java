package org.sapotrace.monitoring;

import java.util.List;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Stream;

/**
 * What there is to draw of a stream.
 *
 * @param limits all revisions, so that {@code limits.get(r - 1)} is revision r
 * @param points in order
 */
public record Chart(
    Line line, Stream stream, List<LimitsRevision> limits, List<JudgedPoint> points) {}
