package org.sapotrace.bench;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import java.util.List;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.monitoring.Hindsight;
import org.sapotrace.productline.Stream;

/** Tells whoever wants to know what became of the verdicts. */
@ApplicationScoped
class Verdicts {

  private final Event<TurnedNonconforming> turned;

  Verdicts(Event<TurnedNonconforming> turned) {
    this.turned = turned;
  }

  /** Tells of the latest revision of a result, which was just recorded. */
  void tell(Stream stream, RecordedResult result) {
    tell(stream, result, Hindsight.NONE);
  }

  void tell(Stream stream, RecordedResult result, Hindsight hindsight) {
    List<RecordedResult.Revision> revisions = result.revisions();
    boolean wasSo = revisions.size() > 1 && isNonconforming(revisions.get(revisions.size() - 2));
    if (isNonconforming(result.latest()) && !wasSo) {
      turned.fire(new TurnedNonconforming(stream, result, hindsight.covers(result.sampledAt())));
    }
  }

  private static boolean isNonconforming(RecordedResult.Revision revision) {
    Verdict verdict = revision.assessment().verdict();
    return !revision.withdrawn()
        && verdict != null
        && verdict.outcome() == Verdict.Outcome.NONCONFORMING;
  }
}
