package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Titrations.soap;
import static org.sapotrace.chemistry.Titrations.titration;
import static org.sapotrace.chemistry.Titrations.weighed;
import static org.sapotrace.chemistry.Titrations.withBlank;

import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.Volume;

class BlankTest {

  // 10 g at 0.01 mol/L: 304.45 mg/kg a mL. The assumed burette is read with u = 0.1 / sqrt(6) =
  // 0.0408 mL and has an end point of 0.025 mL, together 0.0479 mL.
  private static final double PER_ML = 304.45;
  private static final double READING = 0.1 / Math.sqrt(6);

  // Computed: mean 0.12, s0 = sqrt((0.0036 + 0 + 0.0036 + 0.0004 + 0.0004) / 4) = 0.0447.
  private static final List<Double> FIVE = List.of(0.06, 0.12, 0.18, 0.10, 0.14);
  private static final double S0 = Math.sqrt(0.002);

  @Test
  void isTheMeanOfItsSeries() {
    Determination found = with(new Blank.MeanOf(BlankSeries.of(FIVE)), 2.12);

    assertThat(found.value()).isCloseTo(2 * PER_ML, within(1e-9));
    Contribution blank = source(found, "scatter of the blanks");
    assertThat(blank.standardUncertainty()).isCloseTo(PER_ML * S0 / Math.sqrt(5), within(1e-6));
    assertThat(blank.degreesOfFreedom()).isEqualTo(4);
    assertThat(sources(found)).doesNotContain("blank reading", "blank end point");
  }

  // Readings that agree do not show that nothing scatters: JCGM 100:2008, F.2.2.1.
  @ParameterizedTest
  @ValueSource(ints = {2, 3, 7, 30})
  void isNoSurerThanTheScaleLetsItBe(int n) {
    BlankSeries equal = BlankSeries.of(Collections.nCopies(n, 0.07));
    Determination found = with(new Blank.MeanOf(equal), 2.07);

    assertThat(equal.standardDeviation()).isZero();
    assertThat(found.value()).isCloseTo(2 * PER_ML, within(1e-9));
    assertThat(source(found, "scatter of the blanks").standardUncertainty())
        .isCloseTo(PER_ML * READING / Math.sqrt(n), within(1e-6));
    assertThat(found.detection().limit()).isCloseTo(3.3 * READING * PER_ML, within(1e-9));
  }

  // s0 = 0.1 mL is that of a single blank: it does not shrink with the number of blanks.
  @Test
  void scattersAsItsSeriesDoesWhereThatIsMoreThanItCanBeReadTo() {
    Blank blank = new Blank.Once(new Volume(0.12), new BlankSeries(0.5, 0.1, 12));
    Determination found = with(blank, 2.12);

    assertThat(found.value()).isCloseTo(2 * PER_ML, within(1e-9));
    Contribution scatter = source(found, "scatter of the blanks");
    assertThat(scatter.standardUncertainty()).isCloseTo(PER_ML * 0.1, within(1e-6));
    assertThat(scatter.degreesOfFreedom()).isEqualTo(11);
    assertThat(sources(found)).doesNotContain("blank reading", "blank end point");
  }

  @ParameterizedTest
  @CsvSource({"0.0478, true", "0.0480, false"})
  void countsByItsOwnReadingOtherwise(double s0, boolean byItself) {
    Blank blank = new Blank.Once(new Volume(0.12), new BlankSeries(0.5, s0, 12));
    Determination found = with(blank, 2.12);

    assertThat(sources(found).contains("blank reading")).isEqualTo(byItself);
    assertThat(sources(found).contains("blank end point")).isEqualTo(byItself);
    assertThat(sources(found).contains("scatter of the blanks")).isNotEqualTo(byItself);
  }

  // Computed: 3.3 and 10 times 0.0447 mL, at 304.45 mg/kg a mL on 10 g and half of it on 20 g.
  @Test
  void setsTheLimitsOfDetectionAndQuantification() {
    Blank blank = new Blank.MeanOf(BlankSeries.of(FIVE));
    Determination found =
        soap(withBlank(titration(0.01, weighed(0.2, 10), weighed(0.28, 20)), blank));

    assertThat(found.detection().limit()).isCloseTo(3.3 * S0 * 0.75 * PER_ML, within(1e-6));
    assertThat(found.detection().quantification()).isCloseTo(10 * S0 * 0.75 * PER_ML, within(1e-6));
    assertThat(with(Blank.of(new Volume(0.12)), 2).detection()).isNull();
    assertThat(with(new Blank.Once(new Volume(0.12), BlankSeries.of(FIVE)), 2).detection())
        .isEqualTo(with(blank, 2).detection());
  }

  // 3.3 x 0.0447 = 0.1476 mL and 10 x 0.0447 = 0.4472 mL above a blank of 0.12 mL.
  @ParameterizedTest
  @CsvSource({
    "0.05, true, false",
    "0.2675, true, false",
    "0.2677, false, true",
    "0.5671, false, true",
    "0.5673, false, false"
  })
  void tellsWhatIsDetectedFromWhatIsQuantified(
      double titrantMl, boolean belowDetection, boolean belowQuantification) {
    Determination found = with(new Blank.MeanOf(BlankSeries.of(FIVE)), titrantMl);

    assertThat(found.value()).isCloseTo((titrantMl - 0.12) * PER_ML, within(1e-9));
    assertThat(found.isBelowDetection()).isEqualTo(belowDetection);
    assertThat(found.isBelowQuantification()).isEqualTo(belowQuantification);
  }

  @Test
  void rejectsWhatIsNoSeries() {
    assertThatIllegalArgumentException().isThrownBy(() -> BlankSeries.of(List.of(0.1)));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> BlankSeries.of(List.of(0.1, Double.NaN)))
        .withMessage(
            "A series of blanks needs two of them at least, all numbers that can be read in mL.");
    BlankSeries negative = BlankSeries.of(List.of(-0.1, -0.3));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Blank.MeanOf(negative))
        .withMessage(
            "The last 2 blanks come to -0.2 mL on the mean: correct or withdraw those that are wrong, or give the blank of this titration.");
    assertThatIllegalArgumentException().isThrownBy(() -> new Detection(2, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> new Detection(Double.NaN, 1));
  }

  private static Determination with(Blank blank, double titrantMl) {
    return soap(withBlank(titration(0.01, weighed(titrantMl, 10)), blank));
  }

  private static Contribution source(Determination found, String source) {
    return found.budget().contributions().stream()
        .filter(each -> each.source().equals(source))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> sources(Determination found) {
    return found.budget().contributions().stream().map(Contribution::source).toList();
  }
}
