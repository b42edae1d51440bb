package org.sapotrace.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The strength of a titrant.
 *
 * @param normality in mol/L
 * @param standardUncertainty of it in mol/L
 * @param replicates what each titration comes to, in mol/L
 * @param agreement of the replicates; null for fewer than 2
 * @param changeSinceLast the normality less the one found before, in mol/L; null where none was
 * @param cautions what whoever uses the titrant should know, each default that was used among it
 */
public record Strength(
    double normality,
    double standardUncertainty,
    List<Double> replicates,
    Figure.@Nullable Agreement agreement,
    @Nullable Double changeSinceLast,
    List<String> cautions) {

  public Strength {
    replicates = List.copyOf(replicates);
    cautions = List.copyOf(cautions);
  }
}
