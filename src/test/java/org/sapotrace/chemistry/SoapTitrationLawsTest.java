package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Titrations.soap;
import static org.sapotrace.chemistry.Titrations.titration;
import static org.sapotrace.chemistry.Titrations.weighed;
import static org.sapotrace.chemistry.Titrations.withBlank;
import static org.sapotrace.chemistry.Titrations.withReplicates;

import java.util.Collections;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.measure.Budget;

class SoapTitrationLawsTest {

  static Stream<SampleTitration> titrations() {
    return Titrations.random();
  }

  @Test
  void doublingNetVolumeAndSampleMassLeavesSoapUnchanged() {
    SplittableRandom random = new SplittableRandom(20260306);
    for (int i = 0; i < 100; i++) {
      double blank = random.nextDouble(0, 0.2);
      double net = random.nextDouble(0, 5);
      double mass = random.nextDouble(5, 100);
      double once = soap(withBlank(titration(0.01, weighed(blank + net, mass)), blank)).value();
      double doubled =
          soap(withBlank(titration(0.01, weighed(blank + 2 * net, 2 * mass)), blank)).value();
      assertThat(doubled).isCloseTo(once, within(1e-9));
    }
  }

  @ParameterizedTest
  @MethodSource("titrations")
  void aBlankEqualToTheReadingGivesZero(SampleTitration titration) {
    Replicate replicate = titration.replicates().get(0);
    SampleTitration alone =
        withBlank(
            withReplicates(titration, Collections.nCopies(3, replicate)),
            replicate.titrant().millilitres() - replicate.freeAlkaliMl());
    assertThat(soap(alone).value()).isCloseTo(0, within(1e-9));
  }

  @ParameterizedTest
  @MethodSource("titrations")
  void equalReplicatesHaveTheSameValueAndASmallerUncertainty(SampleTitration titration) {
    Replicate replicate = titration.replicates().get(0);
    Determination one = repeated(titration, replicate, 1);
    Determination four = repeated(titration, replicate, 4);
    assertThat(four.value()).isCloseTo(one.value(), within(1e-9));
    assertThat(four.budget().standardUncertainty())
        .isLessThan(one.budget().standardUncertainty())
        .isGreaterThan(one.budget().standardUncertainty() / 2);
  }

  @ParameterizedTest
  @MethodSource("titrations")
  void furtherEqualReplicatesBringTheUncertaintyThatWasForeseen(SampleTitration titration) {
    Replicate replicate = titration.replicates().get(0);
    Determination two = repeated(titration, replicate, 2);
    for (int further : new int[] {0, 1, 5, 20}) {
      Determination more = repeated(titration, replicate, 2 + further);
      double u = more.budget().standardUncertainty();
      assertThat(two.standardUncertaintyWithFurther(further)).isCloseTo(u, within(1e-9 * u));
    }
  }

  @ParameterizedTest
  @MethodSource("titrations")
  void theSharesOfItsBudgetMakeUpTheWhole(SampleTitration titration) {
    Budget budget = soap(titration).budget();
    assertThat(budget.contributions().stream().mapToDouble(budget::share).sum())
        .isCloseTo(1, within(1e-12));
  }

  private static Determination repeated(SampleTitration titration, Replicate replicate, int times) {
    return soap(withReplicates(titration, Collections.nCopies(times, replicate)));
  }
}
