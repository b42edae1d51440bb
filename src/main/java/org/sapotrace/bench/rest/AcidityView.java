package org.sapotrace.bench.rest;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.CatalystDemand;

/**
 * What a calculation of acidity comes to.
 *
 * @param catalyst what the oil needs; null where it was not asked for
 */
record AcidityView(@JsonUnwrapped CalculationView calculation, @Nullable CatalystView catalyst) {

  /** The catalyst of an oil, which always names the alkali. */
  record CatalystView(Alkali alkali, double gramsPerLitre, String text) {

    static CatalystView of(CatalystDemand demand) {
      return new CatalystView(
          demand.alkali(),
          demand.gramsPerLitre(),
          "%s. %s.".formatted(demand.inWords(), demand.handling()));
    }
  }
}
