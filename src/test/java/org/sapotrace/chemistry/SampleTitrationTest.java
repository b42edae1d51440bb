package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Alkali.POTASSIUM;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.chemistry.TestPortion.Weighed;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.MonteCarlo;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Volume;
import org.sapotrace.testing.ChemistryReference;

class SampleTitrationTest {

  private static final long SEED = 20260310;

  static Stream<Function<SampleTitration, Calculation>> acidities() {
    return Stream.of(SampleTitration::acidNumber, SampleTitration::freeFattyAcid);
  }

  @Test
  void tellsFreeAlkaliFromSoapByTwoEndPoints() {
    JsonNode row =
        ChemistryReference.rows("soap").stream()
            .filter(each -> each.has("freeAlkaliMl"))
            .findFirst()
            .orElseThrow();
    SampleTitration titration =
        titration(
            number(row, "c"),
            null,
            replicate(number(row, "totalMl"), number(row, "m"), number(row, "freeAlkaliMl")));

    assertThat(titration.freeAlkali(POTASSIUM).determine().value())
        .isCloseTo(number(row, "freeAlkaliMgPerKg"), within(0.05));
    assertThat(titration.soap(POTASSIUM.soapMolarMass()).determine().value())
        .isCloseTo(number(row, "mgPerKg"), within(0.05));
  }

  // Computed: 100 mg/kg of KOH on 10 g take 1.78237 mL of 0.01 mol/L, which read as 571 mg/kg of
  // potassium oleate.
  @Test
  void readsFreeAlkaliThatWasNotLookedForAsSoap() {
    SampleTitration single = titration(0.01, null, replicate(1.78237, 10, null));
    assertThat(single.soap(POTASSIUM.soapMolarMass()).determine().value())
        .isCloseTo(571, within(0.5));
    SampleTitration both = titration(0.01, null, replicate(1.78237, 10, 1.78237));
    assertThat(both.freeAlkali(POTASSIUM).determine().value()).isCloseTo(100, within(0.001));
    assertThat(both.soap(POTASSIUM.soapMolarMass()).determine().value()).isZero();
  }

  @Test
  void isTheSameWithoutFreeAlkaliAsWithASingleEndPoint() {
    SampleTitration none = titration(0.01, 0.1, replicate(2.1, 10, 0.0));
    SampleTitration single = titration(0.01, 0.1, replicate(2.1, 10, null));
    assertThat(none.soap(POTASSIUM.soapMolarMass()).determine())
        .isEqualTo(single.soap(POTASSIUM.soapMolarMass()).determine());
  }

  // Half a drop of 0.025 mL on 10 g of sample, as KOH: computed 0.025 x 56.105.
  @Test
  void isNoSurerOfNoFreeAlkaliThanOfAnEndPoint() {
    Determination found =
        titration(0.01, 0.1, replicate(2.1, 10, 0.0)).freeAlkali(POTASSIUM).determine();
    assertThat(found.value()).isZero();
    assertThat(found.isBelowDetection()).isTrue();
    assertThat(source(found, "end point")).isCloseTo(0.025 * 56.105, within(1e-6));
    // The blank is titrated to the other end point.
    assertThat(found.budget().contributions())
        .extracting(Contribution::source)
        .doesNotContain("blank reading", "blank end point");
  }

  @Test
  void findsTheAcidNumberOfTheExample() {
    JsonNode row = ChemistryReference.rows("acidNumber").get(0);
    Determination found =
        titration(number(row, "c"), null, replicate(number(row, "V"), number(row, "m"), null))
            .acidNumber()
            .determine();
    assertThat(found.value()).isCloseTo(number(row, "mgKohPerG"), within(0.005));
    // Computed: 0.1 x 56.105 / 20 per mL, with half a drop of 0.025 mL.
    assertThat(source(found, "end point")).isCloseTo(0.025 * 0.280525, within(1e-9));
  }

  @Test
  void findsTheFreeFattyAcidOfTheExample() {
    JsonNode row = ChemistryReference.rows("freeFattyAcid").get(0);
    SampleTitration titration =
        titration(number(row, "N"), null, replicate(number(row, "V"), number(row, "m"), null));
    double found = titration.freeFattyAcid().determine().value();
    assertThat(found).isCloseTo(number(row, "percentOleic"), within(0.0005));
    // Common practice: the acid value is about 1.99 times the free fatty acid.
    assertThat(titration.acidNumber().determine().value() / found).isCloseTo(1.99, within(0.005));
  }

  // Computed: (2.1 - 0.1) x 0.1 x 56.105 / 10.
  @Test
  void takesTheBlankOffAcidity() {
    assertThat(titration(0.1, 0.1, replicate(2.1, 10, null)).acidNumber().determine().value())
        .isCloseTo(1.1221, within(1e-9));
  }

  @Test
  void rejectsEndPointsThatDoNotBelong() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> replicate(1, 10, 1.01))
        .withMessage(
            "The first end point lies beyond the last one: give both as counted from the start.");
    SampleTitration mixed = titration(0.01, null, replicate(1, 10, 0.0), replicate(1, 10, null));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> mixed.soap(POTASSIUM.soapMolarMass()))
        .withMessageStartingWith("Give the first end point of every replicate or of none;");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> mixed.freeAlkali(POTASSIUM))
        .withMessageStartingWith("Free alkali needs the first end point of every replicate;");
  }

  @ParameterizedTest
  @MethodSource("acidities")
  void rejectsASecondEndPointOfAcidity(Function<SampleTitration, Calculation> acidity) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> acidity.apply(titration(0.1, null, replicate(1, 10, 0.0))))
        .withMessage("Acidity is titrated to a single end point; leave out the free alkali.");
  }

  @ParameterizedTest
  @MethodSource("acidities")
  void rejectsMoreAcidThanSample(Function<SampleTitration, Calculation> acidity) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> acidity.apply(titration(1, null, replicate(25, 1, null))))
        .withMessageContaining("more than the sample itself");
  }

  // Computed: (2.1 - 0.1) x 0.1 x 56.105 / 10 = 1.1221, and 4 °C at 0.11 % a °C (EN 14104).
  @Test
  void takesTheAlkaliOfAcidityToBeAlcoholic() {
    Determination found = titration(0.1, 0.1, replicate(2.1, 10, null)).acidNumber().determine();
    assertThat(source(found, "titrant temperature"))
        .isCloseTo(1.1221 * 4 * 1.1e-3 / Math.sqrt(3), within(1e-9));
  }

  // Two laws and two programs: the budget's own check against random errors is SoapBudgetTest.
  @Test
  void propagatesDistributionsToWhatTheBudgetSays() {
    SampleTitration titration =
        titration(0.01, 0.1, replicate(2.1, 10, 0.3), replicate(2.2, 10.1, 0.35));
    Stream.of(titration.soap(POTASSIUM.soapMolarMass()), titration.freeAlkali(POTASSIUM))
        .forEach(SampleTitrationTest::agreeByBothLaws);
    SampleTitration acid = titration(0.1, 0.1, replicate(2.1, 10, null));
    acidities().map(each -> each.apply(acid)).forEach(SampleTitrationTest::agreeByBothLaws);
  }

  // Student's t with 3 degrees of freedom: 95 % lie within 3.182 of its standard uncertainty, and
  // its standard deviation is sqrt(3) times that (JCGM 101:2008, 6.4.9.4).
  @Test
  void drawsATitrantOfFewObservationsFromStudentsT() {
    SampleTitration exact = titration(0.1, null, replicate(20, 10, null));
    SampleTitration uncertain =
        new SampleTitration(
            exact.replicates(),
            exact.blank(),
            new Measured<>(new Normality(0.1), 0.01, 3),
            exact.glassware(),
            exact.density(),
            exact.balance(),
            null);
    Calculation calculation = uncertain.acidNumber();
    double u = 0.1 * calculation.determine().value();
    MonteCarlo found = calculation.propagate(SEED);
    assertThat((found.upper() - found.lower()) / 2 / u).isCloseTo(3.182, within(0.06));
    assertThat(
            found.disagreesWith(calculation.determine().value(), calculation.determine().budget()))
        .isFalse();
  }

  private static void agreeByBothLaws(Calculation calculation) {
    Determination found = calculation.determine();
    MonteCarlo drawn = calculation.propagate(SEED);
    double u = found.budget().standardUncertainty();
    assertThat(drawn.isStable()).isTrue();
    assertThat(drawn.value()).isCloseTo(found.value(), within(0.05 * u));
    assertThat(drawn.standardUncertainty()).isCloseTo(u, within(0.05 * u));
    assertThat(drawn.disagreesWith(found.value(), found.budget())).isFalse();
  }

  private static double source(Determination found, String source) {
    return found.budget().contributions().stream()
        .filter(each -> each.source().equals(source))
        .findFirst()
        .orElseThrow()
        .standardUncertainty();
  }

  private static SampleTitration titration(
      double normality, @Nullable Double blankMl, Replicate... replicates) {
    return new SampleTitration(
        List.of(replicates),
        Blank.of(blankMl == null ? null : new Volume(blankMl)),
        Measured.exactly(new Normality(normality)),
        Glassware.assumed(),
        SampleDensity.assumedFuel(),
        Balance.assumed(),
        null);
  }

  private static Replicate replicate(double totalMl, double sampleG, @Nullable Double freeMl) {
    return new Replicate(
        new Volume(totalMl),
        new Weighed(new Mass(sampleG)),
        freeMl == null ? null : new Volume(freeMl));
  }

  private static double number(JsonNode row, String name) {
    return row.required(name).doubleValue();
  }
}
