package org.sapotrace.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Verdict;

/**
 * What was made of an entry.
 *
 * @param result the figure
 * @param belowDetection whether the bench could not tell it from a blank
 * @param verdict null where nothing is specified
 * @param cautions what whoever uses the figure should know, each default that was used among it
 */
public record Assessment(
    Figure result, boolean belowDetection, @Nullable Verdict verdict, List<String> cautions) {

  public Assessment {
    cautions = List.copyOf(cautions);
  }
}
