package org.sapotrace.bench;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What was read in a titration, as it was typed; null for what was not given.
 *
 * @param titrant what was titrated with
 * @param blankMl titrant that solvent and indicator alone consumed, in mL
 * @param glassware the slug of what sample and blank were titrated from
 * @param balance the slug of what the test portions were weighed on
 * @param replicates one or more titrations of the same sample
 */
public record Readings(
    Titrant titrant,
    @Nullable Double blankMl,
    @Nullable String glassware,
    @Nullable String balance,
    List<Replicate> replicates) {

  /**
   * A titrant of known strength, or a lot on record.
   *
   * @param lot the slug of the lot; null where the normality was typed
   * @param normality in mol/L; null for a lot
   * @param standardUncertainty of the normality in mol/L
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Titrant(
      @Nullable String lot, @Nullable Double normality, @Nullable Double standardUncertainty) {}

  /**
   * One titration. The volume is given directly or by two readings, the test portion by mass or by
   * volume and temperature.
   *
   * @param titrantMl volume of titrant in mL
   * @param initialMl reading at the start in mL
   * @param finalMl reading at the end point in mL
   * @param freeAlkaliMl volume up to the first of two end points in mL, from the same start
   * @param sampleG mass of the test portion in g
   * @param sampleMl volume of the test portion in mL
   * @param sampleC temperature of that volume in °C
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Replicate(
      @Nullable Double titrantMl,
      @Nullable Double initialMl,
      @Nullable Double finalMl,
      @Nullable Double freeAlkaliMl,
      @Nullable Double sampleG,
      @Nullable Double sampleMl,
      @Nullable Double sampleC) {}

  public Readings {
    replicates = List.copyOf(replicates);
  }
}
