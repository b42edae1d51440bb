package org.sapotrace.titrant;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.LotStrength;
import org.sapotrace.bench.Results;
import org.sapotrace.chemistry.DatedStrength;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.measure.Budget;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.monitoring.ChartData;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.PointSelection;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;

/** Reports what the lots are worth. */
@ApplicationScoped
@Transactional
public class StrengthReports {

  private final Titrants titrants;
  private final LotStrengths strengths;
  private final Results results;
  private final ProductLines productLines;
  private final Charts charts;
  private final InstantSource clock;

  StrengthReports(
      Titrants titrants,
      LotStrengths strengths,
      Results results,
      ProductLines productLines,
      Charts charts,
      InstantSource clock) {
    this.titrants = titrants;
    this.strengths = strengths;
    this.results = results;
    this.productLines = productLines;
    this.charts = charts;
    this.clock = clock;
  }

  /**
   * The strength of a lot, from what was performed by then.
   *
   * @param when null for now
   */
  public StrengthReport of(String slug, @Nullable Instant when) {
    Instant at = when == null ? clock.instant() : when;
    KnownLot lot = KnownLot.of(titrants.lot(slug), results);
    LotDeclaration declared = lot.declared();
    LotStrength strength = strengths.latest(lot, at, LotCautions.STRENGTH);
    Measured<Normality> normality = strength.normality();
    List<DatedStrength> standardisations = lot.history().by(at).standardisations();
    Stream stream = productLines.stream(lot.lot().stream()).orElseThrow();
    return new StrengthReport(
        slug,
        at,
        declared.nominalNormality(),
        normality.quantity().molesPerLitre(),
        normality.standardUncertainty(),
        expandedUncertainty(normality),
        standardisations.size(),
        declared.tolerance(),
        declared.tolerance().allows(normality.quantity().molesPerLitre()),
        StrengthTrend.of(declared, standardisations, at),
        strength.cautions(),
        ChartData.of(
            ControlChart.Kind.INDIVIDUALS,
            charts.chart(stream, new PointSelection(null, null, at), null)));
  }

  private static double expandedUncertainty(Measured<Normality> normality) {
    return new Budget(
            List.of(
                new Contribution(
                    "normality", normality.standardUncertainty(), normality.degreesOfFreedom())))
        .expandedUncertainty();
  }
}
