package org.sapotrace.bench.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotNull;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Analyte;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.TitrationBasis;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.CatalystDemand;
import org.sapotrace.measure.Density;
import org.sapotrace.measure.Temperature;
import org.sapotrace.productline.Measurand;
import org.sapotrace.refusal.Refusal;

/** A titration of the acid in an oil to be calculated, and the catalyst that the oil needs. */
final class AcidityCalculation extends SampleCalculation {

  /** The hydroxide an oil is to be made into fuel with. */
  record CatalystGiven(
      @NotNull Alkali alkali,
      @NotNull @DecimalMin("0") @DecimalMax("100") Double baseGPerL,
      @NotNull @DecimalMin(value = "0", inclusive = false) @DecimalMax("1") Double assay) {}

  @Valid @Nullable CatalystGiven catalyst;

  /** What an assessment of this on that basis is answered as. */
  AcidityView answer(Analyte analyte, TitrationBasis basis, Assessment found) {
    CatalystGiven given = catalyst;
    if (given == null) {
      return new AcidityView(CalculationView.of(found), null);
    }
    double value = found.result().value();
    double acidNumber =
        analyte.measurand() == Measurand.FREE_FATTY_ACID ? CatalystDemand.acidNumber(value) : value;
    Density oil = basis.density().at(new Temperature(15));
    CatalystDemand demand =
        Refusal.at(
            "#/catalyst",
            () ->
                CatalystDemand.of(
                    given.alkali(), given.baseGPerL(), acidNumber, oil, given.assay()));
    Assessment told =
        density15KgPerM3 == null
            ? found.withCautions(
                List.of(
                    "No density of the oil was given: 880 kg/m3 at 15 °C, that of fuel, was taken for the catalyst; an oil has some 920 (common practice, no source)."))
            : found;
    return new AcidityView(CalculationView.of(told), AcidityView.CatalystView.of(demand));
  }
}
