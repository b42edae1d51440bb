package org.sapotrace.chemistry;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.MolarMass;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Volume;

/**
 * Soap by titration with acid to one end point or to two, {@link SampleTitration#soap}.
 *
 * @param replicates one or more titrations of the same sample
 * @param blank what solvent and indicator alone consume; null where none was titrated, which counts
 *     as 0 mL
 * @param titrant its normality with its uncertainty
 * @param expressedAs the molar mass of what soap is expressed as
 * @param glassware what sample and blank were titrated from
 * @param density of the sample, for portions measured out by volume
 * @param balance for portions that were weighed
 */
public record SoapTitration(
    List<Replicate> replicates,
    @Nullable Volume blank,
    Measured<Normality> titrant,
    MolarMass expressedAs,
    Glassware glassware,
    SampleDensity density,
    Balance balance) {

  /** Refuses with {@link IllegalArgumentException} what {@link SampleTitration} refuses. */
  public SoapTitration {
    replicates = List.copyOf(replicates);
    new SampleTitration(replicates, blank, titrant, glassware, density, balance);
  }

  /** The mean over the replicates, to be propagated by one law or the other. */
  public Calculation calculation() {
    return new SampleTitration(replicates, blank, titrant, glassware, density, balance)
        .soap(expressedAs);
  }

  /**
   * The mean over the replicates with its budget.
   *
   * @throws IllegalArgumentException if more soap is found than there is sample
   */
  public Determination determine() {
    return calculation().determine();
  }
}
