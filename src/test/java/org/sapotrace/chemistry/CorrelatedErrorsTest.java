package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Alkali.SODIUM;
import static org.sapotrace.chemistry.Titrations.soap;
import static org.sapotrace.chemistry.Titrations.titration;
import static org.sapotrace.chemistry.Titrations.weighed;
import static org.sapotrace.chemistry.Titrations.withBlank;
import static org.sapotrace.chemistry.Titrations.withTitrant;

import org.junit.jupiter.api.Test;
import org.sapotrace.chemistry.TestPortion.Weighed;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Volume;

/**
 * What serves several titrations or end points makes one error in all of them. Their correlation
 * coefficient is 1, so that effects add up with their signs and not by their squares: JCGM
 * 100:2008, 5.2.2, note 1, and F.1.2.3.
 */
class CorrelatedErrorsTest {

  private static final Measured<Normality> LOT = Measured.of(new Normality(0.01), 1e-4);

  // By hand: 304.45 mg/kg a mL on 10 g and 152.225 on 20 g, so 639.345 and 624.1225; u(c)/c = 1 %.
  // Independently it would be (1/2) sqrt(6.39345^2 + 6.241225^2) = 4.4673.
  @Test
  void oneLotErrsAlikeInAllReplicates() {
    SampleTitration titration =
        withTitrant(titration(0.01, weighed(2.1, 10), weighed(4.1, 20)), LOT);
    assertThat(effect(soap(titration), "titrant normality"))
        .isCloseTo((6.39345 + 6.241225) / 2, within(1e-6));
  }

  // By hand: 0.05 / sqrt(6) mL of tolerance, 0.1 / sqrt(6) mL of blank reading, 0.025 mL of its end
  // point, each at 304.45 mg/kg a mL, whatever the number of replicates. The end points of the
  // replicates are independent: 0.025 / sqrt(4).
  @Test
  void onePieceOfGlasswareAndOneBlankErrAlikeInAllReplicates() {
    Replicate replicate = weighed(2.1, 10);
    Determination found =
        soap(withBlank(titration(0.01, replicate, replicate, replicate, replicate), 0.1));
    assertThat(effect(found, "glassware tolerance"))
        .isCloseTo(304.45 * 0.05 / Math.sqrt(6), within(1e-6));
    assertThat(effect(found, "blank reading")).isCloseTo(304.45 * 0.1 / Math.sqrt(6), within(1e-6));
    assertThat(effect(found, "blank end point")).isCloseTo(304.45 * 0.025, within(1e-6));
    assertThat(effect(found, "end point")).isCloseTo(304.45 * 0.025 / 2, within(1e-6));
    assertThat(effect(found, "titrant temperature"))
        .isCloseTo(found.value() * 4 * 2.1e-4 / Math.sqrt(3), within(1e-6));
  }

  // By hand: A = 1 mL and V = 3 mL, so V - A errs by 2 mL x 1 %; were the lot two lots, it would be
  // sqrt(1^2 + 3^2) mL x 1 %.
  @Test
  void oneLotErrsAlikeAtBothEndPoints() {
    assertThat(effect(soap(twoEndPoints()), "titrant normality"))
        .isCloseTo(304.45 * 2 * 0.01, within(1e-6));
  }

  // In mmol/kg, free alkali A c / m and soap (V - A) c / m make up all alkalinity, V c / m. The lot
  // errs by 1 % of each part, and so of their sum, 3 mmol/kg. The first end point adds to the one
  // what it takes from the other, 0.025 mmol/kg, and is no error of the sum.
  @Test
  void freeAlkaliAndSoapOfOneTitrationMakeUpTheWhole() {
    Determination free = twoEndPoints().freeAlkali(SODIUM).determine();
    Determination soap = soap(twoEndPoints());
    Determination whole = soap(withTitrant(titration(0.01, weighed(3, 10)), LOT));
    double naOh = SODIUM.hydroxideMolarMass().gramsPerMole();
    double oleate = SODIUM.soapMolarMass().gramsPerMole();

    assertThat(free.value() / naOh + soap.value() / oleate)
        .isCloseTo(whole.value() / oleate, within(1e-12));
    assertThat(
            effect(free, "titrant normality") / naOh + effect(soap, "titrant normality") / oleate)
        .isCloseTo(0.03, within(1e-9))
        .isCloseTo(effect(whole, "titrant normality") / oleate, within(1e-9));
    assertThat(effect(free, "end point") / naOh)
        .isCloseTo(0.025, within(1e-9))
        .isCloseTo(effect(soap, "first end point") / oleate, within(1e-9));
    assertThat(effect(whole, "end point")).isCloseTo(effect(soap, "end point"), within(1e-9));
  }

  private static SampleTitration twoEndPoints() {
    return withTitrant(
        titration(0.01, new Replicate(new Volume(3), new Weighed(new Mass(10)), new Volume(1))),
        LOT);
  }

  private static double effect(Determination found, String source) {
    return found.budget().contributions().stream()
        .filter(each -> each.source().equals(source))
        .findFirst()
        .orElseThrow()
        .standardUncertainty();
  }
}
