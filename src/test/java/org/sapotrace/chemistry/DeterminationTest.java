package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.measure.Budget;
import org.sapotrace.measure.Contribution;

class DeterminationTest {

  private static final Budget BUDGET =
      new Budget(List.of(Contribution.of("end point", 4), Contribution.of("tolerance", 3)));

  // Computed: two replicates, 16 shrinks and 9 stays; sqrt(9 + 16 * 2 / (2 + k)).
  @Test
  void foreseesItsUncertaintyWithFurtherReplicates() {
    Determination two = new Determination(50, List.of(49.0, 51.0), BUDGET, 16);
    assertThat(two.standardUncertaintyWithFurther(0)).isCloseTo(5, within(1e-12));
    assertThat(two.standardUncertaintyWithFurther(2)).isCloseTo(Math.sqrt(17), within(1e-12));
    assertThat(two.standardUncertaintyWithFurther(14)).isCloseTo(Math.sqrt(11), within(1e-12));
  }

  @ParameterizedTest
  @ValueSource(doubles = {-0.1, 25.1, Double.NaN})
  void rejectsAPartThatIsNoPartOfTheVariance(double shrinking) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Determination(50, List.of(50.0), BUDGET, shrinking))
        .withMessageContaining("a part of its variance");
  }

  @Test
  void rejectsNoReplicatesAndNoValue() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Determination(50, List.of(), BUDGET, 16))
        .withMessageContaining("at least one replicate");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Determination(Double.NaN, List.of(50.0), BUDGET, 16))
        .withMessageContaining("a finite value");
  }
}
