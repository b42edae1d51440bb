package org.sapotrace.titrant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.refusal.Refusal;

class StandardisationValidityTest {

  @ParameterizedTest
  @CsvSource({"P30D, 720", "PT36H, 36", "P3653D, 87672", "P1DT12H, 36"})
  void isAnIsoDuration(String text, int hours) {
    assertThat(StandardisationValidity.of(text).duration()).isEqualTo(Duration.ofHours(hours));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "30", "30 days", "P1M", "P0D", "-P1D", "P3654D", "P99999999999999D"})
  void refusesAnythingElse(String text) {
    assertThatThrownBy(() -> StandardisationValidity.of(text))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("set a duration above 0 and up to ten years, such as P30D");
  }
}
