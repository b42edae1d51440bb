package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Titrations.measuredOut;
import static org.sapotrace.chemistry.Titrations.soap;
import static org.sapotrace.chemistry.Titrations.titration;
import static org.sapotrace.chemistry.Titrations.weighed;
import static org.sapotrace.chemistry.Titrations.withBlank;
import static org.sapotrace.chemistry.Titrations.withTitrant;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.Density;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.testing.ChemistryReference;

class SoapTitrationTest {

  static List<JsonNode> singleEndPoint() {
    return ChemistryReference.rows("soap").stream()
        .filter(row -> row.has("V") && row.has("mgPerKg"))
        .toList();
  }

  @ParameterizedTest
  @MethodSource("singleEndPoint")
  void findsTheSoapOfTheWorkedExamples(JsonNode row) {
    Alkali alkali = alkaliOf(row.required("as").textValue());
    SampleTitration titration =
        withBlank(
            titration(number(row, "c"), weighed(number(row, "V"), number(row, "m"))),
            number(row, "V0"));

    double found = titration.soap(alkali.soapMolarMass()).determine().value();

    assertThat(found).isCloseTo(number(row, "mgPerKg"), within(0.005));
  }

  // Common practice: 304 or 320 mg/kg per mL of 0.01 mol/L acid on 10 g.
  @Test
  void agreesWithTheFactorsOfCommonPracticeWhereTheirAssumptionsHold() {
    JsonNode row =
        ChemistryReference.rows("soap").stream()
            .filter(each -> each.has("factorSodium"))
            .findFirst()
            .orElseThrow();
    SampleTitration titration =
        titration(number(row, "c"), weighed(number(row, "V"), number(row, "m")));

    assertThat(soap(titration).value())
        .isCloseTo(number(row, "factorSodium"), within(0.06))
        .isCloseTo(304, within(0.5));
    assertThat(titration.soap(Alkali.POTASSIUM.soapMolarMass()).determine().value())
        .isCloseTo(number(row, "factorPotassium"), within(0.06))
        .isCloseTo(320, within(0.6));
  }

  // Common practice, mL x 304 (the factor is rounded down from 304.45).
  @ParameterizedTest
  @CsvSource({"0.15, 45.6", "0.10, 30.4"})
  void readsAsTheShortcutOnTenGrams(double titrantMl, double mgPerKg) {
    assertThat(soap(titration(0.01, weighed(titrantMl, 10))).value())
        .isCloseTo(mgPerKg, within(0.08));
  }

  // Computed: 12 mL at 20 degC weigh 10.517 g, and 10 g were taken for granted.
  @Test
  void findsFivePerCentLessThanTheShortcutForTwelveMillilitresAt20Degrees() {
    double found = soap(titration(0.01, measuredOut(0.15, 12, 20))).value();
    assertThat(304 * 0.15 / found).isCloseTo(1.05, within(0.003));
  }

  @Test
  void keepsTheSignOfANegativeNetVolume() {
    Determination found = soap(withBlank(titration(0.01, weighed(0.02, 10)), 0.05));
    // Computed: -0.03 mL x 304.45 mg/kg per mL.
    assertThat(found.value()).isCloseTo(-9.1335, within(1e-9));
    assertThat(found.isBelowDetection()).isTrue();
  }

  @Test
  void isBelowDetectionWhenTheReadingIsTheBlank() {
    Determination found = soap(withBlank(titration(0.01, weighed(0.05, 10)), 0.05));
    assertThat(found.value()).isZero();
    assertThat(found.isBelowDetection()).isTrue();
    assertThat(soap(titration(0.01, weighed(0.05, 10))).isBelowDetection()).isFalse();
  }

  @Test
  void reportsTheMeanAndWhatEachReplicateGives() {
    Determination found =
        soap(titration(0.01, weighed(0.47, 40), weighed(0.49, 40), weighed(0.54, 40)));
    // Computed: 76.1125 mg/kg per mL.
    assertThat(found.replicates().get(0)).isCloseTo(35.772875, within(1e-9));
    assertThat(found.replicates().get(1)).isCloseTo(37.295125, within(1e-9));
    assertThat(found.replicates().get(2)).isCloseTo(41.100750, within(1e-9));
    assertThat(found.value()).isCloseTo(38.05625, within(1e-9));
  }

  @Test
  void namesTheSourcesThatApply() {
    SampleTitration weighedOnly = titration(0.01, weighed(0.47, 40));
    assertThat(sources(weighedOnly))
        .containsExactlyInAnyOrder(
            "titrant reading",
            "end point",
            "glassware tolerance",
            "titrant temperature",
            "titrant normality",
            "sample mass");
    assertThat(sources(withBlank(weighedOnly, 0.0)))
        .containsExactlyInAnyOrder(
            "titrant reading",
            "end point",
            "glassware tolerance",
            "titrant temperature",
            "blank reading",
            "blank end point",
            "titrant normality",
            "sample mass");
    assertThat(sources(titration(0.01, measuredOut(0.47, 45, 20))))
        .containsExactlyInAnyOrder(
            "titrant reading",
            "end point",
            "glassware tolerance",
            "titrant temperature",
            "titrant normality",
            "sample density",
            "sample volume");
  }

  @Test
  void carriesTheDegreesOfFreedomOfTheTitrant() {
    SampleTitration exact = titration(0.01, weighed(20, 10));
    SampleTitration standardised = withTitrant(exact, new Measured<>(new Normality(0.01), 2e-4, 3));
    assertThat(soap(exact).budget().effectiveDegreesOfFreedom()).isInfinite();
    // The titrant makes up nearly all of it.
    assertThat(soap(standardised).budget().effectiveDegreesOfFreedom()).isBetween(3.0, 3.5);
  }

  @Test
  void rejectsWhatCannotBeTitrated() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> titration(0.01))
        .withMessage("Give at least one titration.");
    SampleTitration titration = titration(0.01, weighed(1, 10));
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                new SampleTitration(
                    titration.replicates(),
                    titration.blank(),
                    titration.titrant(),
                    Glassware.named("measuring-cylinder-10ml"),
                    titration.density(),
                    titration.balance(),
                    null))
        .withMessage(
            "measuring-cylinder-10ml cannot deliver titrant; name a burette or a measuring pipette.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> measuredOut(1, 0, 20))
        .withMessage("The sample volume is 0 mL; give the volume that was titrated.");
    for (double none : new double[] {-0.001, Double.NaN, Double.POSITIVE_INFINITY}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> Balance.readableTo(none))
          .withMessage("The uncertainty of the balance must be a number of at least 0 g.");
    }
  }

  // The assumed balance has u = 0.01 / sqrt(3) = 0.00577 g, a cylinder of 10 mL 0.2 / sqrt(6) =
  // 0.0816 mL.
  @Test
  void rejectsSamplesThatAreHardlyKnown() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> soap(titration(0.01, weighed(0.11, 0.0577))))
        .withMessage(
            "The test portion of 0.0577 g is less than 10 times its own uncertainty of 0.005774 g: weigh out more of the sample.");
    assertThat(soap(titration(0.01, weighed(0.11, 0.0578))).value()).isPositive();
    assertThatIllegalArgumentException()
        .isThrownBy(() -> soap(titration(0.01, measuredOut(0.11, 0.816, 20))))
        .withMessage(
            "The sample volume of 0.816 mL is less than 10 times its own uncertainty of 0.08165 mL: weigh the sample instead.");
    SampleTitration good = titration(0.01, measuredOut(0.11, 12, 15));
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                soap(
                    new SampleTitration(
                        good.replicates(),
                        good.blank(),
                        good.titrant(),
                        good.glassware(),
                        SampleDensity.fuel(Measured.of(new Density(500), 50.1)),
                        good.balance(),
                        null)))
        .withMessage(
            "The density of 500 kg/m3 is less than 10 times its own uncertainty of 50.1 kg/m3: check both and their unit, or weigh the sample instead.");
  }

  @Test
  void rejectsMoreSoapThanSample() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> soap(titration(1, weighed(40, 10))))
        .withMessage(
            "The titration comes to 1217800 mg/kg, more than the sample itself: check volume, normality and sample.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> soap(withBlank(titration(1, weighed(0, 10)), 40.0)))
        .withMessageStartingWith("The titration comes to -1217800 mg/kg");
  }

  private static Alkali alkaliOf(String soapName) {
    return Arrays.stream(Alkali.values())
        .filter(each -> each.soapName().equals(soapName))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> sources(SampleTitration titration) {
    return soap(titration).budget().contributions().stream().map(Contribution::source).toList();
  }

  private static double number(JsonNode row, String name) {
    return row.required(name).doubleValue();
  }
}
