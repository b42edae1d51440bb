package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.chemistry.Glassware.Kind;
import org.sapotrace.chemistry.TestPortion.MeasuredOut;
import org.sapotrace.measure.Temperature;
import org.sapotrace.measure.Volume;

class GlasswareTest {

  static List<Glassware> all() {
    return Glassware.all();
  }

  static List<Glassware> graduated() {
    return all().stream().filter(each -> each.graduationMl() > 0).toList();
  }

  @ParameterizedTest
  @MethodSource("all")
  void isFoundByItsSlugAndSaysWhereItsFiguresComeFrom(Glassware glassware) {
    assertThat(Glassware.named(glassware.slug())).isSameAs(glassware);
    assertThat(glassware.slug()).matches("[a-z0-9][a-z0-9-]{0,62}");
    assertThat(glassware.source()).startsWith("ISO ");
    assertThat(glassware.mark()).isEqualTo("memory");
  }

  // No scale is finer than half of what the piece may err by, nor the tolerance above 1.5 marks.
  @ParameterizedTest
  @MethodSource("graduated")
  void hasAToleranceOfTheSizeOfItsGraduation(Glassware glassware) {
    assertThat(glassware.toleranceMl() / glassware.graduationMl()).isBetween(0.5, 1.5);
  }

  @Test
  void listsTheBurettesAndPipettesForTitrant() {
    assertThat(Glassware.forTitrant())
        .extracting(Glassware::slug)
        .containsExactly(
            "burette-10ml",
            "burette-25ml",
            "burette-50ml",
            "measuring-pipette-1ml",
            "measuring-pipette-2ml",
            "measuring-pipette-5ml");
  }

  // ISO 385, 25 mL, class A, 0.1 mL graduation (from memory).
  @Test
  void assumesABuretteOf25MillilitresOfClassA() {
    Glassware burette = Glassware.assumed();
    assertThat(burette.slug()).isEqualTo("burette-25ml");
    assertThat(burette.kind()).isEqualTo(Kind.BURETTE);
    assertThat(burette.accuracyClass()).isEqualTo("A");
    // Computed: sqrt(2) * 0.05 / sqrt(3) and 0.05 / sqrt(6).
    assertThat(burette.readingMl()).isCloseTo(0.0408248, within(1e-7));
    assertThat(burette.calibrationMl()).isCloseTo(0.0204124, within(1e-7));
    assertThat(burette.endPointMl()).isEqualTo(0.025);
  }

  @ParameterizedTest
  @CsvSource({
    "measuring cylinder, 0.5, 10",
    "measuring cylinder, 10, 10",
    "measuring cylinder, 10.1, 25",
    "measuring cylinder, 45.5, 50",
    "measuring cylinder, 1000, 1000",
    "volumetric flask, 1000, 1000",
    "volumetric flask, 240, 250",
    "pipette, 10, 10",
    "pipette, 0.5, 1"
  })
  void takesTheSmallestPieceThatHoldsAVolume(String label, double volume, double capacity) {
    Kind kind =
        Arrays.stream(Kind.values())
            .filter(each -> each.label().equals(label))
            .findFirst()
            .orElseThrow();
    Glassware piece = Glassware.smallest(kind, new Volume(volume), "");
    assertThat(piece.kind()).isEqualTo(kind);
    assertThat(piece.capacityMl()).isEqualTo(capacity);
  }

  @Test
  void hasNoCylinderForMoreThanALitre() {
    MeasuredOut portion = new MeasuredOut(new Volume(1000.5), new Temperature(20));
    assertThatIllegalArgumentException()
        .isThrownBy(portion::cylinder)
        .withMessage("No measuring cylinder holds 1000.5 mL; weigh the sample instead.");
  }

  @Test
  void rejectsAReadingBeyondItsCapacity() {
    Glassware pipette = Glassware.named("measuring-pipette-1ml");
    assertThatCode(() -> pipette.checkHolds(new Volume(1))).doesNotThrowAnyException();
    assertThatIllegalArgumentException()
        .isThrownBy(() -> pipette.checkHolds(new Volume(1.2)))
        .withMessage(
            "1.2 mL cannot be read from one filling of measuring-pipette-1ml, which holds 1 mL: check the reading or name the glassware that was used.");
  }

  @Test
  void rejectsUnknownNamesAndNamesTheKnownOnes() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Glassware.named("teaspoon"))
        .withMessageStartingWith(
            "The glassware \"teaspoon\" is not known; give one of burette-10ml, burette-25ml,");
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0, 0, 0",
    "NaN, 0, 0, 0",
    "25, -0.1, 0, 0",
    "25, NaN, 0, 0",
    "25, 25, 0, 0",
    "25, 0, -0.1, 0",
    "25, 0, NaN, 0",
    "25, 0, 25, 0",
    "25, 0, 0, -0.1",
    "25, 0, 0, NaN",
    "25, 0, 0, 25"
  })
  void rejectsDimensionsThatDoNotFit(
      double capacity, double graduation, double tolerance, double endPoint) {
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                new Glassware(
                    "odd", Kind.BURETTE, capacity, graduation, "A", tolerance, endPoint, "", ""))
        .withMessageStartingWith("The dimensions of odd do not fit together");
  }
}
