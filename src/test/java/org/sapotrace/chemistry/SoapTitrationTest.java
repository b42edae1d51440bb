package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Alkali.POTASSIUM;
import static org.sapotrace.chemistry.Alkali.SODIUM;
import static org.sapotrace.chemistry.Titrations.measuredOut;
import static org.sapotrace.chemistry.Titrations.soap;
import static org.sapotrace.chemistry.Titrations.weighed;
import static org.sapotrace.chemistry.Titrations.withBlank;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Volume;
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
    SoapTitration titration =
        soap(number(row, "c"), alkali, weighed(number(row, "V"), number(row, "m")));

    double found = withBlank(titration, number(row, "V0")).determine().value();

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
    Replicate replicate = weighed(number(row, "V"), number(row, "m"));

    assertThat(soap(number(row, "c"), SODIUM, replicate).determine().value())
        .isCloseTo(number(row, "factorSodium"), within(0.06))
        .isCloseTo(304, within(0.5));
    assertThat(soap(number(row, "c"), POTASSIUM, replicate).determine().value())
        .isCloseTo(number(row, "factorPotassium"), within(0.06))
        .isCloseTo(320, within(0.6));
  }

  // Common practice, mL x 304 (the factor is rounded down from 304.45).
  @ParameterizedTest
  @CsvSource({"0.15, 45.6", "0.10, 30.4"})
  void readsAsTheShortcutOnTenGrams(double titrantMl, double mgPerKg) {
    assertThat(soap(0.01, SODIUM, weighed(titrantMl, 10)).determine().value())
        .isCloseTo(mgPerKg, within(0.08));
  }

  // Computed: 12 mL at 20 degC weigh 10.517 g, and 10 g were taken for granted.
  @Test
  void findsFivePerCentLessThanTheShortcutForTwelveMillilitresAt20Degrees() {
    double found = soap(0.01, SODIUM, measuredOut(0.15, 12, 20)).determine().value();
    assertThat(304 * 0.15 / found).isCloseTo(1.05, within(0.003));
  }

  @Test
  void keepsTheSignOfANegativeNetVolume() {
    Determination found = withBlank(soap(0.01, SODIUM, weighed(0.02, 10)), 0.05).determine();
    // Computed: -0.03 mL x 304.45 mg/kg per mL.
    assertThat(found.value()).isCloseTo(-9.1335, within(1e-9));
    assertThat(found.isBelowDetection()).isTrue();
  }

  @Test
  void isBelowDetectionWhenTheReadingIsTheBlank() {
    Determination found = withBlank(soap(0.01, SODIUM, weighed(0.05, 10)), 0.05).determine();
    assertThat(found.value()).isZero();
    assertThat(found.isBelowDetection()).isTrue();
    assertThat(soap(0.01, SODIUM, weighed(0.05, 10)).determine().isBelowDetection()).isFalse();
  }

  @Test
  void reportsTheMeanAndWhatEachReplicateGives() {
    Determination found =
        soap(0.01, SODIUM, weighed(0.47, 40), weighed(0.49, 40), weighed(0.54, 40)).determine();
    // Computed: 76.1125 mg/kg per mL.
    assertThat(found.replicates().get(0)).isCloseTo(35.772875, within(1e-9));
    assertThat(found.replicates().get(1)).isCloseTo(37.295125, within(1e-9));
    assertThat(found.replicates().get(2)).isCloseTo(41.100750, within(1e-9));
    assertThat(found.value()).isCloseTo(38.05625, within(1e-9));
  }

  @Test
  void namesTheSourcesThatApply() {
    SoapTitration weighedOnly = soap(0.01, SODIUM, weighed(0.47, 40));
    assertThat(sources(weighedOnly))
        .containsExactlyInAnyOrder(
            "titrant reading",
            "end point",
            "glassware tolerance",
            "titrant normality",
            "sample mass");
    assertThat(sources(withBlank(weighedOnly, 0.0)))
        .containsExactlyInAnyOrder(
            "titrant reading",
            "end point",
            "glassware tolerance",
            "blank reading",
            "blank end point",
            "titrant normality",
            "sample mass");
    assertThat(sources(soap(0.01, SODIUM, measuredOut(0.47, 45, 20))))
        .containsExactlyInAnyOrder(
            "titrant reading",
            "end point",
            "glassware tolerance",
            "titrant normality",
            "sample density",
            "sample volume");
  }

  @Test
  void carriesTheDegreesOfFreedomOfTheTitrant() {
    SoapTitration exact = soap(0.01, SODIUM, weighed(20, 10));
    SoapTitration standardised =
        new SoapTitration(
            exact.replicates(),
            exact.blank(),
            new Measured<>(new Normality(0.01), 2e-4, 3),
            exact.expressedAs(),
            exact.glassware(),
            exact.density(),
            exact.balance());
    assertThat(exact.determine().budget().effectiveDegreesOfFreedom()).isInfinite();
    // The titrant makes up nearly all of it.
    assertThat(standardised.determine().budget().effectiveDegreesOfFreedom()).isBetween(3.0, 3.5);
  }

  @Test
  void rejectsWhatCannotBeTitrated() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> soap(0.01, SODIUM))
        .withMessage("Give at least one titration.");
    SoapTitration titration = soap(0.01, SODIUM, weighed(1, 10));
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                new SoapTitration(
                    titration.replicates(),
                    null,
                    titration.titrant(),
                    titration.expressedAs(),
                    Glassware.named("measuring-cylinder-10ml"),
                    titration.density(),
                    titration.balance()))
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

  @Test
  void rejectsMoreSoapThanSample() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> soap(1, SODIUM, weighed(40, 10)).determine())
        .withMessage(
            "The titration comes to 1217800 mg/kg, more than the sample itself: check volume, normality and sample.");
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                withBlank(soap(1, SODIUM, weighed(0, 10)), new Volume(40).millilitres())
                    .determine())
        .withMessageStartingWith("The titration comes to -1217800 mg/kg");
  }

  private static Alkali alkaliOf(String soapName) {
    return Arrays.stream(Alkali.values())
        .filter(each -> each.soapName().equals(soapName))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> sources(SoapTitration titration) {
    return titration.determine().budget().contributions().stream()
        .map(Contribution::source)
        .toList();
  }

  private static double number(JsonNode row, String name) {
    return row.required(name).doubleValue();
  }
}
