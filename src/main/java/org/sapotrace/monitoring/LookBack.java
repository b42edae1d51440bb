package org.sapotrace.monitoring;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.UUID;

/** The last points of a pass, kept so that a signal need not read them once more. */
final class LookBack {

  private final Points points;
  private final UUID stream;
  private final Deque<Point> last = new ArrayDeque<>();

  LookBack(Points points, UUID stream) {
    this.points = points;
    this.stream = stream;
  }

  /** Takes the next point of the pass. */
  void add(Point point) {
    last.addLast(point);
    if (last.size() > Beginning.LOOK_BACK) {
      last.removeFirst();
    }
  }

  /**
   * The last results, the one of the point taken last included.
   *
   * @param count at most {@link Beginning#LOOK_BACK}, and as many as there are
   */
  List<ChartedResult> results(int count) {
    int first = last.getLast().position() - count + 1;
    if (last.getFirst().position() > first) {
      // It reaches back to before this pass, once: from then on they are here.
      List<Point> stored = points.from(stream, first, count);
      last.clear();
      last.addAll(stored);
    }
    return last.stream().filter(point -> point.position() >= first).map(Point::result).toList();
  }
}
