package org.sapotrace.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Removal;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Stream;

/**
 * A batch on either side of a wash or tower.
 *
 * @param removal the stream of the removal
 * @param inlet the latest result that counts before it; null for none
 * @param outlet the latest result that counts behind it; null for none
 */
record Sides(Stream removal, @Nullable RecordedResult inlet, @Nullable RecordedResult outlet) {

  /** The removal of the batch. */
  record Derived(BatchRemoval entry, Assessment assessment) {

    /** Whether a result on record says the same. */
    boolean isAsIn(RecordedResult.Revision known) {
      return known.entered().equals(entry)
          && known.assessment().result().equals(assessment.result());
    }
  }

  /** The removal; empty where a side is not known, or has no logarithm. */
  Optional<Derived> derive() {
    if (inlet == null || outlet == null || !(value(inlet) > 0) || !(value(outlet) > 0)) {
      return Optional.empty();
    }
    BatchRemoval entry =
        new BatchRemoval(outlet.batch(), outlet.sampledAt(), inlet.id(), outlet.id());
    Removal found = new Removal(content(inlet), content(outlet));
    Figure figure = Figure.of(found.value(), removal.unit(), found.budget().orElse(null));
    return Optional.of(
        new Derived(
            entry,
            new Assessment(
                figure,
                false,
                Assessor.verdict(Assessor.requirement(removal, entry.sampledAt()), figure),
                null,
                cautions(found, inlet, outlet))));
  }

  /** Why the batch has no removal although both sides are known; empty otherwise. */
  Optional<String> leftOut() {
    if (inlet == null || outlet == null || (value(inlet) > 0 && value(outlet) > 0)) {
      return Optional.empty();
    }
    boolean isInlet = !(value(inlet) > 0);
    RecordedResult low = isInlet ? inlet : outlet;
    return Optional.of(
        "Batch %s has no removal in stream %s: its latest result in stream %s is %s %s, and only a result above 0 has a logarithm."
            .formatted(
                low.batch(),
                removal.slug(),
                isInlet ? removal.inlet() : removal.outlet(),
                Rounding.of(value(low)),
                figure(low).unit()));
  }

  private static List<String> cautions(Removal found, RecordedResult inlet, RecordedResult outlet) {
    List<String> cautions = new ArrayList<>();
    if (isBelowDetection(inlet) || isBelowDetection(outlet)) {
      cautions.add(
          "The %s result could not be told from a blank: take the removal as a rough figure."
              .formatted(isBelowDetection(inlet) ? "inlet" : "outlet"));
    }
    if (found.budget().isEmpty()) {
      cautions.add(
          "The uncertainty of a side is not known: what the removal is worth is not known.");
    } else if (found.isRough()) {
      cautions.add(
          "A side is known to no better than a quarter of itself: take the uncertainty of the removal as a rough figure.");
    }
    return cautions;
  }

  private static Removal.Content content(RecordedResult result) {
    Figure figure = figure(result);
    return new Removal.Content(
        figure.value(), figure.standardUncertainty(), figure.effectiveDegreesOfFreedom());
  }

  private static boolean isBelowDetection(RecordedResult result) {
    return result.latest().assessment().belowDetection();
  }

  private static double value(RecordedResult result) {
    return figure(result).value();
  }

  private static Figure figure(RecordedResult result) {
    return result.latest().assessment().result();
  }
}
