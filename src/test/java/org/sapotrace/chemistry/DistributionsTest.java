package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.chemistry.Titrations.measuredOut;
import static org.sapotrace.chemistry.Titrations.titration;
import static org.sapotrace.chemistry.Titrations.weighed;
import static org.sapotrace.chemistry.Titrations.withBlank;
import static org.sapotrace.chemistry.Titrations.withTitrant;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.measure.Density;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.MonteCarlo;
import org.sapotrace.measure.Normality;

/** Both laws of propagation beside each other, over every shape that a titration can have. */
class DistributionsTest {

  private static final long SEED = 20260313;

  /** The usual ones, and as many of portions that are known to between 1 and 10 %. */
  static Stream<SampleTitration> titrations() {
    SplittableRandom random = new SplittableRandom(20260314);
    return Stream.concat(
        Titrations.random(), Titrations.random().map(each -> hardlyKnown(each, random)));
  }

  private static SampleTitration hardlyKnown(SampleTitration usual, SplittableRandom random) {
    Replicate replicate =
        random.nextBoolean()
            ? weighed(2, random.nextDouble(1, 10))
            : measuredOut(2, random.nextDouble(1, 9), 20);
    return new SampleTitration(
        List.of(replicate),
        usual.blank(),
        usual.titrant(),
        usual.glassware(),
        SampleDensity.fuel(Measured.of(new Density(880), random.nextDouble(5, 85))),
        new Balance(0.1),
        usual.repeatability());
  }

  @ParameterizedTest
  @MethodSource("titrations")
  void agreeUnlessTheModelSaysThatTheyMayNot(SampleTitration titration) {
    for (Calculation calculation : calculations(titration)) {
      if (!calculation.needsDistributions()) {
        Determination found = calculation.determine();
        MonteCarlo drawn = calculation.propagate(SEED, 50_000);
        assertThat(drawn.distanceFrom(mean(found), found.budget())).isLessThanOrEqualTo(0.05);
      }
    }
  }

  // Most of them are such, so that the one above says something.
  @Test
  void areBothNeededOnlyNowAndThen() {
    assertThat(Titrations.random().flatMap(each -> calculations(each).stream()))
        .filteredOn(each -> !each.needsDistributions())
        .hasSizeGreaterThan(60);
  }

  private static List<Calculation> calculations(SampleTitration titration) {
    boolean twoEndPoints =
        titration.replicates().stream().allMatch(each -> each.freeAlkali() != null);
    Calculation soap = titration.soap(Alkali.SODIUM.soapMolarMass());
    return twoEndPoints
        ? List.of(soap, titration.freeAlkali(Alkali.SODIUM))
        : List.of(soap, titration.acidNumber(), titration.freeFattyAcid());
  }

  // A portion known to 10 %, of which 1/m is skew.
  @Test
  void areBothNeededWhereADivisorIsHardlyKnown() {
    SampleTitration titration = titration(0.01, weighed(2.1, 0.06));
    assertDisagree(titration.soap(Alkali.SODIUM.soapMolarMass()));
  }

  // Three blanks: Student's t of 2 degrees of freedom, of which Welch-Satterthwaite sees only the
  // fourth power.
  @Test
  void areBothNeededWithFewDegreesOfFreedom() {
    Blank blanks = new Blank.MeanOf(BlankSeries.of(List.of(0.05, 0.2, 0.11)));
    assertDisagree(
        withBlank(titration(0.01, weighed(2.1, 10)), blanks).soap(Alkali.SODIUM.soapMolarMass()));
  }

  // Rectangular: 95 % within 1.645 and not 1.960 standard uncertainties.
  @Test
  void areBothNeededWhereTheTemperatureIsAllThatErrs() {
    SampleTitration usual = titration(0.1, weighed(20, 10));
    Glassware exact =
        new Glassware("exact", Glassware.Kind.BURETTE, 25, 0, "A", 0, 0, "none", "computed");
    assertDisagree(
        new SampleTitration(
                usual.replicates(),
                usual.blank(),
                usual.titrant(),
                exact,
                usual.density(),
                new Balance(0),
                null)
            .acidNumber());
  }

  @Test
  void areNotBothNeededForAUsualTitration() {
    SampleTitration usual =
        withTitrant(
            withBlank(titration(0.01, weighed(0.47, 40), weighed(0.49, 40)), 0.02),
            Measured.of(new Normality(0.01), 2e-5));
    assertThat(usual.soap(Alkali.SODIUM.soapMolarMass()).needsDistributions()).isFalse();
    assertThat(usual.acidNumber().needsDistributions()).isFalse();
  }

  private static void assertDisagree(Calculation calculation) {
    Determination found = calculation.determine();
    assertThat(calculation.needsDistributions()).isTrue();
    // As few trials as a check takes show it.
    assertThat(calculation.propagate(SEED, 20_000).disagreesWith(mean(found), found.budget()))
        .isTrue();
  }

  private static double mean(Determination found) {
    return found.replicates().stream().mapToDouble(each -> each).average().orElseThrow();
  }
}
