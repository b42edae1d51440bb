package org.sapotrace.bench;

import java.util.List;
import org.sapotrace.chemistry.Reagent;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;

/**
 * What a titrant lot was worth at some time.
 *
 * @param lot its slug
 * @param reagent what it is made of
 * @param normality with its uncertainty
 * @param isInterpolated whether it was found between standardisations, as a restatement does, or is
 *     the nearest of them outside
 * @param cautions what whoever uses a figure found with it should know
 */
public record LotStrength(
    String lot,
    Reagent reagent,
    Measured<Normality> normality,
    boolean isInterpolated,
    List<String> cautions) {

  public LotStrength {
    cautions = List.copyOf(cautions);
  }
}
