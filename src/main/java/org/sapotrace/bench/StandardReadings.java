package org.sapotrace.bench;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.PrimaryStandard;

/**
 * What was read in a standardisation, as it was typed; null for what was not given.
 *
 * @param standard what the titrant was titrated against
 * @param purity mass fraction of the standard that is what its name says
 * @param blankMl titrant that solvent and indicator alone consumed, in mL
 * @param glassware the slug of what standard and blank were titrated from
 * @param balance the slug of what the standard was weighed on
 * @param replicates one or more titrations
 */
public record StandardReadings(
    PrimaryStandard standard,
    @Nullable Double purity,
    @Nullable Double blankMl,
    @Nullable String glassware,
    @Nullable String balance,
    List<Run> replicates) {

  /**
   * One titration, of a standard that was weighed, or of an aliquot of its solution.
   *
   * @param standardG mass of the standard titrated in g
   * @param solution what the aliquot was taken of
   * @param aliquotMl volume of the aliquot in mL
   * @param titrantMl volume of titrant in mL
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Run(
      @Nullable Double standardG,
      @Nullable Solution solution,
      @Nullable Double aliquotMl,
      double titrantMl) {}

  /**
   * A solution of the standard.
   *
   * @param standardG mass of the standard in it in g
   * @param volumeMl its volume in mL
   */
  public record Solution(double standardG, double volumeMl) {}

  public StandardReadings {
    replicates = List.copyOf(replicates);
  }
}
