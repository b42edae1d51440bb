package org.sapotrace.titrant;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.time.Instant;
import java.util.List;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.monitoring.ChartData;

/**
 * What a lot is worth, and where it is going.
 *
 * @param at when
 * @param nominalNormality in mol/L
 * @param normality by which a titration of a sample taken then counts, in mol/L
 * @param standardUncertainty of it in mol/L
 * @param expandedUncertainty of it for a coverage of 95 %, in mol/L
 * @param standardisations how many count
 * @param tolerance within which the normality should be, in mol/L
 * @param withinTolerance whether it is
 * @param trend where it is going
 * @param cautions what whoever uses the lot should know
 * @param chart of its strength
 */
public record StrengthReport(
    String lot,
    Instant at,
    double nominalNormality,
    double normality,
    double standardUncertainty,
    double expandedUncertainty,
    int standardisations,
    Specification tolerance,
    boolean withinTolerance,
    @JsonUnwrapped StrengthTrend trend,
    List<String> cautions,
    ChartData chart) {

  public StrengthReport {
    cautions = List.copyOf(cautions);
  }
}
