package org.sapotrace.monitoring;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** How the charted points were judged. */
public interface Judgements {

  /** Puts judgements on record, in place of those under the same limits. */
  void judge(UUID stream, List<JudgedPoint> judged);

  /** Takes all judgements of a point back. */
  void takeBack(UUID stream, Point point);

  /** How a point was judged under a revision of the limits. */
  Optional<Judgement> judgement(UUID stream, Point point, int limitsRevision);

  /**
   * Some points, each with its judgement under the latest revision that judged it.
   *
   * @param limitsRevision the latest revision to look at; null for the latest of all
   */
  List<JudgedPoint> judged(UUID stream, PointSelection selection, @Nullable Integer limitsRevision);

  /** The point at a position, judged as {@link #judged} does. */
  Optional<JudgedPoint> judgedAt(UUID stream, int position, @Nullable Integer limitsRevision);

  /** The points from a position on, judged as {@link #judged} does, in order. */
  List<JudgedPoint> judgedFrom(UUID stream, int position, int most);

  /** The points of these results, each with its latest judgement. */
  List<JudgedPoint> ofResults(UUID stream, List<UUID> results);
}
