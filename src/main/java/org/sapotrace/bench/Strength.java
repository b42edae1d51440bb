package org.sapotrace.bench;

import java.util.List;
import java.util.Objects;
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

  /** What a standardisation came to. */
  public static Strength of(Assessment standardisation, @Nullable Double changeSinceLast) {
    Figure figure = standardisation.result();
    return new Strength(
        figure.value(),
        Objects.requireNonNull(figure.standardUncertainty()),
        figure.replicates(),
        figure.agreement(),
        changeSinceLast,
        standardisation.cautions());
  }

  public Strength {
    replicates = List.copyOf(replicates);
    cautions = List.copyOf(cautions);
  }
}
