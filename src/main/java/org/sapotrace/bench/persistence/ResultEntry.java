package org.sapotrace.bench.persistence;

import com.fasterxml.jackson.databind.JsonNode;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.RevisionSeal;

/**
 * What the ledger holds of a revision of a result.
 *
 * @param outcome of the verdict; null where nothing was specified
 * @param entered the entry as it was typed
 * @param seal by which all that is stored of the revision is known again
 */
record ResultEntry(
    int revision,
    @Nullable String reason,
    double value,
    String unit,
    Verdict.@Nullable Outcome outcome,
    JsonNode entered,
    String seal) {

  static ResultEntry of(RecordedResult.Revision revision, JsonNode entered, RevisionEntity stored) {
    Verdict verdict = revision.assessment().verdict();
    return new ResultEntry(
        revision.revision(),
        revision.reason(),
        stored.value,
        revision.assessment().result().unit(),
        verdict == null ? null : verdict.outcome(),
        entered,
        RevisionSeal.ofCanonical(
            stored.value, stored.withdrawn, stored.entered, stored.determination));
  }

  /** What the latest revision of a result did to it. */
  static Act act(RecordedResult result) {
    RecordedResult.Revision latest = result.latest();
    if (latest.withdrawn()) {
      return Act.RESULT_WITHDRAWN;
    }
    RecordedResult.Revision before = result.revisions().get(result.revisions().size() - 2);
    return latest.entered().equals(before.entered()) ? Act.RESULT_RESTATED : Act.RESULT_CORRECTED;
  }
}
