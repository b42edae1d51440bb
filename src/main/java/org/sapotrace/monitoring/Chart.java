package org.sapotrace.monitoring;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.PlantEvent;
import org.sapotrace.productline.Stream;

/**
 * What there is to draw of a stream.
 *
 * @param line the line of the stream; null for one under no line
 * @param selection which points were asked for
 * @param limits all revisions, so that {@code limits.get(r - 1)} is revision r
 * @param before the point before the first of those, to which its range reaches back; null where
 *     there is none
 * @param points in order
 * @param signals that have not lapsed and held somewhere among the points
 * @param withdrawn the results taken off the chart within its period
 * @param phases that were known
 * @param events of the period shown that touch the stream, in order of time
 */
public record Chart(
    @Nullable Line line,
    Stream stream,
    PointSelection selection,
    List<LimitsRevision> limits,
    @Nullable JudgedPoint before,
    List<JudgedPoint> points,
    List<Signal> signals,
    List<Withdrawals.Withdrawn> withdrawn,
    Phases phases,
    List<PlantEvent> events) {}
