package org.sapotrace.bench;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Advice;
import org.sapotrace.chemistry.Determination;
import org.sapotrace.chemistry.ReplicateAgreement;
import org.sapotrace.chemistry.Requirement;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.measure.Rounding;

/**
 * A determination as it is reported: by the mean of its replicates, or by their median where
 * further titrations did not agree either.
 *
 * @param determination with the value that is reported
 * @param agreement of the replicates; null where there are too few or too many to tell
 * @param unit of the value in UCUM code
 */
record Reported(Determination determination, @Nullable ReplicateAgreement agreement, String unit) {

  // The range of more is not tabulated, and nobody titrates so often.
  private static final int MOST_COMPARED = 25;

  static Reported of(Determination found, String unit) {
    int n = found.replicates().size();
    if (n < 2 || n > MOST_COMPARED) {
      return new Reported(found, null, unit);
    }
    ReplicateAgreement agreement = ReplicateAgreement.of(found);
    Determination reported =
        new Determination(
            agreement.value(), found.replicates(), found.budget(), found.shrinkingVariance());
    return new Reported(reported, agreement, unit);
  }

  /**
   * The verdict, which stays open while the replicates disagree; null where nothing is required.
   */
  @Nullable Verdict judge(@Nullable Requirement requirement) {
    if (requirement == null) {
      return null;
    }
    Verdict verdict = requirement.judge(determination);
    if (agreement == null || agreement.accepted()) {
      return verdict;
    }
    return new Verdict(
        Verdict.Outcome.INCONCLUSIVE,
        verdict.probabilityConforming(),
        verdict.limit(),
        Advice.RETEST,
        disagreement(agreement),
        agreement.needed());
  }

  /** What to say of replicates that disagree, or did before further ones settled it. */
  Optional<String> caution() {
    if (agreement == null) {
      return Optional.empty();
    }
    if (!agreement.accepted()) {
      return Optional.of(disagreement(agreement));
    }
    return agreement.branch().startsWith("median")
        ? Optional.of(
            "The replicates disagree although more were titrated: their %s is reported, with the uncertainty of a mean."
                .formatted(agreement.branch()))
        : Optional.empty();
  }

  private String disagreement(ReplicateAgreement found) {
    return "The titrations differ by %s %s where %s %s is the most to expect, so titrate the same sample %s and correct the result with all of them."
        .formatted(
            Rounding.of(found.range()),
            unit,
            Rounding.of(found.criticalRange()),
            unit,
            found.needed() == 1 ? "once more" : found.needed() + " more times");
  }
}
