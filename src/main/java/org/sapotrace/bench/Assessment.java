package org.sapotrace.bench;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Verdict;

/**
 * What was made of an entry.
 *
 * @param result the figure
 * @param belowDetection whether the bench could not tell it from a blank
 * @param verdict null where nothing is specified
 * @param titrant the lot on record that was titrated with; null where the normality was typed, or
 *     nothing was titrated
 * @param cautions what whoever uses the figure should know, each default that was used among it
 */
public record Assessment(
    Figure result,
    boolean belowDetection,
    @Nullable Verdict verdict,
    @Nullable UsedTitrant titrant,
    List<String> cautions) {

  public Assessment {
    cautions = List.copyOf(cautions);
  }

  /** The same with more to be known. */
  public Assessment withCautions(List<String> further) {
    List<String> all = new ArrayList<>(cautions);
    all.addAll(further);
    return new Assessment(result, belowDetection, verdict, titrant, all);
  }
}
