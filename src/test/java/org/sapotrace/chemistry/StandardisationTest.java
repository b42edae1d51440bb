package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.PrimaryStandard.POTASSIUM_HYDROGEN_PHTHALATE;
import static org.sapotrace.chemistry.PrimaryStandard.SODIUM_CARBONATE;
import static org.sapotrace.chemistry.PrimaryStandard.TRIS;
import static org.sapotrace.chemistry.Reagent.HYDROCHLORIC_ACID;
import static org.sapotrace.chemistry.Reagent.SODIUM_HYDROXIDE;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.chemistry.Glassware.Kind;
import org.sapotrace.chemistry.StandardPortion.Aliquot;
import org.sapotrace.chemistry.StandardPortion.Weighed;
import org.sapotrace.chemistry.Standardisation.Run;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.MonteCarlo;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Volume;
import org.sapotrace.testing.ChemistryReference;

class StandardisationTest {

  static List<JsonNode> published() {
    return ChemistryReference.rows("standardisation").stream()
        .filter(row -> row.has("massG"))
        .toList();
  }

  @ParameterizedTest
  @MethodSource("published")
  void findsTheNormalityOfTheExamples(JsonNode row) {
    PrimaryStandard standard = PrimaryStandard.named(row.required("standard").textValue());
    assertThat(standard.equivalentMass()).isCloseTo(number(row, "equivalentMass"), within(1e-9));
    Reagent reagent = standard == SODIUM_CARBONATE ? HYDROCHLORIC_ACID : SODIUM_HYDROXIDE;

    double found =
        of(reagent, standard, weighed(number(row, "massG"), number(row, "V")))
            .normality()
            .quantity()
            .molesPerLitre();

    assertThat(found).isCloseTo(number(row, "normality"), within(1e-6));
  }

  // "Each mL of 0.01 mol/L is so much sodium carbonate": a pharmacopoeia-style preparation sheet.
  @Test
  void agreesWithTheTitreOfAPreparationSheet() {
    assertThat(
            of(HYDROCHLORIC_ACID, SODIUM_CARBONATE, weighed(0.005299, 10))
                .normality()
                .quantity()
                .molesPerLitre())
        .isCloseTo(0.01, within(1e-6));
  }

  // EURACHEM/CITAC QUAM:2012, example A2. Its repeatability is entered as the end point, as both
  // act
  // on the volume. The example knows the temperature to 3 °C with 95 % confidence, 0.006 mL; here
  // it
  // is 4 °C to either side, as in examples A1 and A3.
  @Test
  void reproducesThePublishedBudget() {
    JsonNode example = ChemistryReference.entry("quamA2");
    JsonNode inputs = example.required("inputs");
    double volume = inputs.required("V").get(0).doubleValue();
    double repeatability = inputs.required("R").get(1).doubleValue() * volume;
    Glassware burette =
        new Glassware(
            "published-example",
            Kind.BURETTE,
            25,
            0,
            "A",
            0.03,
            repeatability,
            "QUAM A2",
            "published");
    Standardisation standardisation =
        new Standardisation(
            SODIUM_HYDROXIDE,
            POTASSIUM_HYDROGEN_PHTHALATE,
            new Purity(1, 0.0005),
            List.of(weighed(inputs.required("m").get(0).doubleValue(), volume)),
            null,
            burette,
            new Balance(Math.sqrt(2) * 0.15e-3 / Math.sqrt(3)));

    Measured<Normality> found = standardisation.normality();

    JsonNode published = example.required("published");
    assertThat(found.quantity().molesPerLitre())
        .isCloseTo(number(published, "c"), within(0.000005));
    // Without rounding; the example's own contribution of the molar mass is left out here.
    JsonNode unrounded = example.required("unrounded");
    JsonNode parts = unrounded.required("contributions");
    Map<String, Double> budget = budget(standardisation);
    double perMl = number(unrounded, "c") / volume;
    double temperature = budget.get("titrant temperature");
    assertThat(temperature).isCloseTo(perMl * volume * 4 * 2.1e-4 / Math.sqrt(3), within(1e-9));
    double withTheTemperatureOfTheExample =
        Math.sqrt(
            Math.pow(found.standardUncertainty(), 2)
                - Math.pow(temperature, 2)
                + Math.pow(perMl * 0.006, 2));
    assertThat(withTheTemperatureOfTheExample)
        .isCloseTo(
            Math.sqrt(Math.pow(number(unrounded, "u"), 2) - Math.pow(number(parts, "M"), 2)),
            within(1e-9))
        .isCloseTo(number(published, "u"), within(0.000005));
    assertThat(Math.hypot(budget.get("glassware tolerance"), perMl * 0.006))
        .isCloseTo(number(parts, "V"), within(1e-9));
    assertThat(budget.get("end point")).isCloseTo(number(parts, "R"), within(1e-9));
    assertThat(budget.get("mass of the standard")).isCloseTo(number(parts, "m"), within(1e-9));
    assertThat(budget.get("purity of the standard")).isCloseTo(number(parts, "P"), within(1e-9));
  }

  // EURACHEM/CITAC QUAM:2012, example A3: V_T1 = 18.64 mL from a burette of 0.03 mL, u = 0.0153 mL,
  // 4 °C to either side at 0.021 % a °C.
  @Test
  void knowsAVolumeAsThePublishedExampleDoes() {
    JsonNode published = ChemistryReference.entry("quamA3").required("inputs").required("V_T1");
    double volume = published.get(0).doubleValue();
    Glassware burette =
        new Glassware(
            "published-example", Kind.BURETTE, 25, 0, "A", 0.03, 0, "QUAM A3", "published");
    Map<String, Double> budget =
        budget(
            new Standardisation(
                SODIUM_HYDROXIDE,
                POTASSIUM_HYDROGEN_PHTHALATE,
                Purity.of(1),
                List.of(weighed(0.3888, volume)),
                null,
                burette,
                Balance.assumedForStandards()));
    double perMl =
        value(SODIUM_HYDROXIDE, POTASSIUM_HYDROGEN_PHTHALATE, weighed(0.3888, volume)) / volume;
    assertThat(
            Math.hypot(budget.get("glassware tolerance"), budget.get("titrant temperature"))
                / perMl)
        .isCloseTo(published.get(1).doubleValue(), within(0.0001));
  }

  // EN 14104: 0.11 % a °C; computed with 4 °C.
  @Test
  void takesPotassiumHydroxideToBeAlcoholic() {
    Standardisation standardisation =
        new Standardisation(
            Reagent.POTASSIUM_HYDROXIDE,
            POTASSIUM_HYDROGEN_PHTHALATE,
            Purity.of(1),
            List.of(weighed(0.4084, 20)),
            null,
            Glassware.assumed(),
            Balance.assumedForStandards());
    assertThat(budget(standardisation).get("titrant temperature"))
        .isCloseTo(0.1 * 4 * 1.1e-3 / Math.sqrt(3), within(1e-7));
  }

  // Computed: 1000 x 0.5300 x 10/1000 / (52.994 x 10.00); a weighed 5.300 mg gives the same.
  @Test
  void takesAliquotsOfASolutionForWhatTheyHold() {
    double aliquot = value(HYDROCHLORIC_ACID, SODIUM_CARBONATE, aliquot(0.53, 1000, 10, 10));
    assertThat(aliquot).isCloseTo(0.0100011, within(5e-8));
    assertThat(aliquot)
        .isCloseTo(value(HYDROCHLORIC_ACID, SODIUM_CARBONATE, weighed(0.0053, 10)), within(1e-15));
  }

  // EURACHEM/CITAC QUAM:2012, example A3: 1000 m P V_T2 / (V_T1 M V_HCl), which has the shape of an
  // aliquot. Its uncertainties are those of other glassware.
  @Test
  void findsThePublishedConcentrationOfTwoSteps() {
    JsonNode inputs = ChemistryReference.entry("quamA3").required("inputs");
    Run run =
        aliquot(
            inputs.required("m").get(0).doubleValue(),
            inputs.required("V_T1").get(0).doubleValue(),
            inputs.required("V_T2").get(0).doubleValue(),
            inputs.required("V_HCl").get(0).doubleValue());
    assertThat(value(SODIUM_HYDROXIDE, POTASSIUM_HYDROGEN_PHTHALATE, run))
        .isCloseTo(
            number(ChemistryReference.entry("quamA3").required("published"), "c"),
            within(0.000005));
  }

  // Two laws: the derivatives of the formula against random errors.
  @Test
  void propagatesDistributionsToWhatTheBudgetSays() {
    Run direct = weighed(0.1060, 20);
    Run aliquot = aliquot(0.53, 100, 20, 20);
    for (List<Run> runs : List.of(List.of(direct, direct), List.of(aliquot, aliquot, direct))) {
      Calculation calculation =
          new Standardisation(
                  HYDROCHLORIC_ACID,
                  SODIUM_CARBONATE,
                  new Purity(0.999, 0.002),
                  runs,
                  new Volume(0.05),
                  Glassware.assumed(),
                  Balance.assumedForStandards())
              .calculation();
      Determination found = calculation.determine();
      MonteCarlo drawn = calculation.propagate(20260311);
      double u = found.budget().standardUncertainty();
      assertThat(drawn.standardUncertainty()).isCloseTo(u, within(0.05 * u));
      assertThat(drawn.value()).isCloseTo(found.value(), within(0.05 * u));
      assertThat(drawn.disagreesWith(found.value(), found.budget())).isFalse();
    }
  }

  // Computed by hand from the formula: all relative, with the class A tolerances a/sqrt(6).
  @Test
  void addsFlaskAndPipetteForAliquots() {
    Standardisation standardisation =
        of(
            HYDROCHLORIC_ACID,
            SODIUM_CARBONATE,
            aliquot(0.53, 1000, 10, 10),
            aliquot(0.53, 1000, 10, 10));
    double c = standardisation.calculation().determine().value();
    Map<String, Double> budget = budget(standardisation);

    assertThat(budget.get("volumetric flask"))
        .isCloseTo(c * 0.40 / Math.sqrt(6) / 1000, within(1e-9 * c));
    assertThat(budget.get("pipette")).isCloseTo(c * 0.020 / Math.sqrt(6) / 10, within(1e-9 * c));
    assertThat(budget.get("mass in the solution"))
        .isCloseTo(c * 0.0001 / Math.sqrt(3) / 0.53, within(1e-9 * c));
    // Two end points are found independently, one burette was used for both.
    assertThat(budget.get("end point")).isCloseTo(c * 0.025 / 10 / Math.sqrt(2), within(1e-6 * c));
    assertThat(budget.get("glassware tolerance"))
        .isCloseTo(c * 0.05 / Math.sqrt(6) / 10, within(1e-5 * c));
    assertThat(budget).doesNotContainKeys("mass of the standard", "blank reading");
  }

  @Test
  void averagesItsReplicatesAndTakesOffTheBlank() {
    Standardisation standardisation =
        of(TRIS, 0.1, weighed(0.2422, 20.1), weighed(0.2422, 20.1), weighed(0.3634, 30.1));
    Determination found = standardisation.calculation().determine();
    // Computed: 1000 x 0.2422 / (121.135 x 20) and 1000 x 0.3634 / (121.135 x 30).
    assertThat(found.replicates().get(0)).isCloseTo(0.0999711, within(5e-8));
    assertThat(found.replicates().get(2)).isCloseTo(0.0999986, within(5e-8));
    assertThat(found.value()).isCloseTo((2 * 0.0999711 + 0.0999986) / 3, within(5e-8));
    assertThat(budget(standardisation)).containsKeys("blank reading", "blank end point");
  }

  @Test
  void scalesWithThePurity() {
    Standardisation pure = of(TRIS, null, weighed(0.2422, 20));
    Standardisation less =
        new Standardisation(
            pure.reagent(),
            pure.standard(),
            Purity.of(0.98),
            pure.replicates(),
            null,
            pure.glassware(),
            pure.balance());
    assertThat(less.normality().quantity().molesPerLitre())
        .isCloseTo(0.98 * pure.normality().quantity().molesPerLitre(), within(1e-15));
  }

  @ParameterizedTest
  @CsvSource({
    "hydrochloric-acid, potassium-hydrogen-phthalate, 'sodium-carbonate, tris'",
    "sulfuric-acid, potassium-hydrogen-phthalate, 'sodium-carbonate, tris'",
    "potassium-hydroxide, sodium-carbonate, potassium-hydrogen-phthalate",
    "sodium-hydroxide, tris, potassium-hydrogen-phthalate"
  })
  void rejectsAStandardThatDoesNotReact(String reagent, String standard, String suitable) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> PrimaryStandard.named(standard).checkSuits(Reagent.named(reagent)))
        .withMessage(
            "%s cannot be standardised on %s; use %s.".formatted(reagent, standard, suitable));
    assertThatIllegalArgumentException()
        .isThrownBy(
            () -> of(Reagent.named(reagent), PrimaryStandard.named(standard), weighed(0.1, 10)));
  }

  @Test
  void rejectsWhatCannotBeAStandardisation() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> of(TRIS, null))
        .withMessage("Give at least one titration of the standard.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> of(TRIS, 0.1, weighed(0.2, 20), weighed(0.2, 0.1)))
        .withMessage("The standard took no more titrant than the blank: check both readings.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> aliquot(0.53, 100, 100.1, 10))
        .withMessage(
            "The aliquot is 100.1 mL; it must be more than 0 mL and at most the solution's 100 mL.");
    assertThatIllegalArgumentException().isThrownBy(() -> aliquot(0.53, 100, 0, 10));
  }

  // The assumed balance has u = 0.1 mg / sqrt(3) = 0.0577 mg; burette and end point of 25 mL with a
  // blank sqrt(2 x 0.0408^2 + 2 x 0.025^2 + 0.0204^2) = 0.0707 mL; a pipette of 1 mL 0.008 /
  // sqrt(6)
  // = 0.00327 mL; a flask of 10 mL 0.025 / sqrt(6) = 0.0102 mL.
  @Test
  void rejectsPortionsThatAreHardlyKnown() {
    assertThat(value(HYDROCHLORIC_ACID, TRIS, weighed(0.00058, 10))).isPositive();
    assertThatIllegalArgumentException()
        .isThrownBy(() -> of(TRIS, null, weighed(0.00057, 10)))
        .withMessage(
            "The mass of the standard of 0.00057 g is less than 10 times its own uncertainty of 0.00005774 g: weigh out more, or titrate an aliquot of a solution.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> of(TRIS, 0.1, weighed(0.2, 0.8)))
        .withMessage(
            "The titrant beyond the blank of 0.7 mL is less than 10 times its own uncertainty of 0.07071 mL: titrate more of the standard, or from finer glassware.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> of(TRIS, null, aliquot(0.00057, 100, 10, 10)))
        .withMessageEndingWith("0.00005774 g: dissolve more.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> of(TRIS, null, aliquot(0.1, 0.1, 0.05, 10)))
        .withMessageEndingWith("0.01021 mL: make up a larger one.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> of(TRIS, null, aliquot(0.1, 100, 0.03, 10)))
        .withMessageEndingWith("0.003266 mL: take a larger one.");
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.4999, 1.0101, 99.95, Double.NaN})
  void rejectsWhatIsNoPurity(double purity) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Purity.of(purity))
        .withMessageEndingWith("a fraction from 0.5 to 1.01, as 0.9995 for 99.95 %.");
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1e-9, 0.5001, Double.NaN})
  void rejectsWhatIsNoHalfWidth(double halfWidth) {
    assertThatIllegalArgumentException().isThrownBy(() -> new Purity(1, halfWidth));
  }

  @ParameterizedTest
  @EnumSource(PrimaryStandard.class)
  void isFoundByItsName(PrimaryStandard standard) {
    assertThat(PrimaryStandard.named(standard.id())).isSameAs(standard);
  }

  @Test
  void rejectsUnknownNames() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> PrimaryStandard.named("borax"))
        .withMessage(
            "The primary standard \"borax\" is not known; give one of sodium-carbonate, tris, potassium-hydrogen-phthalate.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Reagent.named("vinegar"))
        .withMessageStartingWith("The reagent \"vinegar\" is not known; give one of hydro");
  }

  private static Standardisation of(
      PrimaryStandard acidStandard, @Nullable Double blankMl, Run... runs) {
    return new Standardisation(
        HYDROCHLORIC_ACID,
        acidStandard,
        Purity.of(1),
        List.of(runs),
        blankMl == null ? null : new Volume(blankMl),
        Glassware.assumed(),
        Balance.assumedForStandards());
  }

  private static Standardisation of(Reagent reagent, PrimaryStandard standard, Run... runs) {
    return new Standardisation(
        reagent,
        standard,
        Purity.of(1),
        List.of(runs),
        null,
        Glassware.assumed(),
        Balance.assumedForStandards());
  }

  private static double value(Reagent reagent, PrimaryStandard standard, Run run) {
    return of(reagent, standard, run).normality().quantity().molesPerLitre();
  }

  private static Run weighed(double standardG, double titrantMl) {
    return new Run(new Weighed(new Mass(standardG)), new Volume(titrantMl));
  }

  private static Run aliquot(
      double standardG, double volumeMl, double aliquotMl, double titrantMl) {
    return new Run(
        new Aliquot(new Mass(standardG), new Volume(volumeMl), new Volume(aliquotMl)),
        new Volume(titrantMl));
  }

  private static Map<String, Double> budget(Standardisation standardisation) {
    return standardisation.calculation().determine().budget().contributions().stream()
        .collect(Collectors.toMap(Contribution::source, Contribution::standardUncertainty));
  }

  private static double number(JsonNode row, String name) {
    return row.required(name).doubleValue();
  }
}
