package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Volume;

class UsualTitrationTest {

  /** AOCS Cc 17-95, EN 14104, AOCS Ca 5a-40 (from memory), as the design of the bench has them. */
  @ParameterizedTest
  @CsvSource({
    "WASHED_SOAP, 0.01, 40",
    "SOAP, 0.01, 10",
    "SOAP, 0.1, 5",
    "ACID_NUMBER, 0.1, 20",
    "FREE_FATTY_ACID, 0.1, 56.4",
    "FREE_FATTY_ACID, 0.25, 28.2",
    "FREE_FATTY_ACID, 1, 7.05"
  })
  void takesWhatTheMethodsTake(UsualTitration usual, double normality, double grams) {
    assertThat(usual.takes(new Normality(normality))).isTrue();
    assertThat(usual.takes(new Mass(grams))).isTrue();
  }

  @ParameterizedTest
  @CsvSource({"0.005, 0.02, 1, 200, WASHED_SOAP", "0.05, 0.2, 0.5, 50, ACID_NUMBER"})
  void endsWithItsRanges(
      double weakest, double strongest, double least, double most, UsualTitration usual) {
    assertThat(usual.takes(new Normality(weakest))).isTrue();
    assertThat(usual.takes(new Normality(Math.nextDown(weakest)))).isFalse();
    assertThat(usual.takes(new Normality(strongest))).isTrue();
    assertThat(usual.takes(new Normality(Math.nextUp(strongest)))).isFalse();
    assertThat(usual.takes(new Mass(least))).isTrue();
    assertThat(usual.takes(new Mass(Math.nextDown(least)))).isFalse();
    assertThat(usual.takes(new Mass(most))).isTrue();
    assertThat(usual.takes(new Mass(Math.nextUp(most)))).isFalse();
  }

  @ParameterizedTest
  @EnumSource
  void namesASourceOrSaysThatThereIsNone(UsualTitration usual) {
    assertThat(usual.whichTitrants()).containsAnyOf("memory", "no source");
    assertThat(usual.whichPortions()).containsAnyOf("memory", "no source");
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1, 0, 0.000499, 2.001, 5, 1e9, Double.NaN})
  void refusesATitrantThatNothingTakes(double normality) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> UsualTitration.titrant(normality))
        .withMessageContaining("0.0005 to 2 mol/L");
  }

  @Test
  void takesTitrantsAndPortionsAtTheirBounds() {
    assertThat(UsualTitration.titrant(0.0005).molesPerLitre()).isEqualTo(0.0005);
    assertThat(UsualTitration.titrant(2).molesPerLitre()).isEqualTo(2);
    assertThat(UsualTitration.portion(0.05).grams()).isEqualTo(0.05);
    assertThat(UsualTitration.portion(1000).grams()).isEqualTo(1000);
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1, 0, 0.0499, 1000.1, 1e9, Double.NaN})
  void refusesAPortionThatNobodyTitrates(double grams) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> UsualTitration.portion(grams))
        .withMessageContaining("0.05 to 1000 g");
  }

  /** Common practice, no source: 30 % of 25 mL is 7.5 mL. */
  @Test
  void readsLittleOfALargePiecePoorly() {
    Glassware burette = Glassware.named("burette-25ml");

    assertThat(burette.isPoorFor(new Volume(7.49))).isTrue();
    assertThat(burette.isPoorFor(new Volume(7.5))).isFalse();
  }

  /** 5 mg/kg is 66.214 mg/kg of sodium and 40.994 mg/kg of potassium oleate (computed). */
  @ParameterizedTest
  @CsvSource({
    "66.2, SODIUM, true",
    "65.9, SODIUM, true",
    "65.8, SODIUM, false",
    "66.2, POTASSIUM, false",
    "41, POTASSIUM, true",
    "41.2, POTASSIUM, false",
    "41, SODIUM, false"
  })
  void knowsALimitByTheMetalItIsMeantFor(double upper, Alkali alkali, boolean isIt) {
    assertThat(new Specification(null, upper).isSoapDefaultOf(alkali)).isEqualTo(isIt);
    assertThat(new Specification(upper, null).isSoapDefaultOf(alkali)).isFalse();
  }
}
