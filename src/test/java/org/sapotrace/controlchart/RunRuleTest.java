package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class RunRuleTest {

  @ParameterizedTest
  @EnumSource
  void isFoundByItsId(RunRule rule) {
    assertThat(RunRule.named(rule.id())).isEqualTo(rule);
  }

  @Test
  void namesTheRulesWhereOneIsUnknown() {
    assertThatThrownBy(() -> RunRule.named("seven-same-side"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith(
            "There is no run rule \"seven-same-side\". Use one of beyond-limits,");
  }

  @Test
  void hasALetterOfItsOwn() {
    String letters =
        Arrays.stream(RunRule.values())
            .map(rule -> String.valueOf(rule.letter()))
            .collect(Collectors.joining());
    assertThat(letters).isEqualTo("LTFENRZWO");
  }

  // Western Electric 1956: the first four. Nelson 1984: eight tests, which differ from these by
  // nine instead of eight on one side and by the last four.
  @ParameterizedTest
  @CsvSource({"western-electric-1956, LTFE", "nelson-1984, LTFNRZWO"})
  void hasSetsByName(String name, String letters) {
    assertThat(
            RunRule.allNamed(name).stream()
                .map(rule -> String.valueOf(rule.letter()))
                .collect(Collectors.joining()))
        .isEqualTo(letters);
  }

  @Test
  void takesASingleRuleForASet() {
    assertThat(RunRule.allNamed("six-trending")).containsExactly(RunRule.SIX_TRENDING);
  }

  @Test
  void refusesOtherSets() {
    assertThatThrownBy(() -> RunRule.allNamed("all"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith("There is no run rule \"all\". Use one of beyond-limits,")
        .hasMessageEndingWith("or western-electric-1956 or nelson-1984.");
  }

  @Test
  void keepsItsSetsFromBeingChanged() {
    assertThatThrownBy(() -> RunRule.NELSON_1984.add(RunRule.EIGHT_SAME_SIDE))
        .isInstanceOf(UnsupportedOperationException.class);
  }
}
