package org.sapotrace.pages;

import static java.util.stream.Collectors.toMap;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.sapotrace.productline.Line;

/**
 * A line as it is reviewed.
 *
 * @param tasks what to do now, the most pressing first
 * @param isSilent whether nothing is on record of any stream
 * @param clock by which its times are told
 */
public record LinePage(
    String slug,
    String name,
    String alkali,
    List<LineTask> tasks,
    List<StreamSection> streams,
    boolean isSilent,
    String clock) {

  static LinePage of(Line line, List<StreamStanding> standings, WallClock clock) {
    Map<String, String> names =
        standings.stream()
            .collect(toMap(each -> each.stream().slug(), each -> each.stream().name()));
    return new LinePage(
        line.slug(),
        line.name(),
        line.alkali().id(),
        standings.stream()
            .flatMap(standing -> LineTask.of(standing, clock).stream())
            .sorted(Comparator.comparing(LineTask::urgency))
            .toList(),
        standings.stream().map(standing -> StreamSection.of(line, standing, names, clock)).toList(),
        standings.stream().allMatch(standing -> standing.latest() == null),
        clock.zone().getId());
  }
}
