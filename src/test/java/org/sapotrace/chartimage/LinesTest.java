package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class LinesTest {

  @Test
  void breaksBetweenWordsAndLosesNone() {
    String text = "Soap after the tower, harbour line: drifting up since 14 March";
    List<String> lines = Lines.wrap(text, 12, 120);
    assertThat(lines).hasSizeGreaterThan(2).allMatch(line -> Typeface.width(line, 12) <= 120);
    assertThat(String.join(" ", lines)).isEqualTo(text);
  }

  @Test
  void breaksAWordThatIsWiderThanALine() {
    List<String> lines = Lines.wrap("W".repeat(100), 12, 120);
    assertThat(lines).allMatch(line -> Typeface.width(line, 12) <= 120);
    assertThat(String.join("", lines)).isEqualTo("W".repeat(100));
  }

  @Test
  void neverSplitsALetterOfTwoChars() {
    List<String> lines = Lines.wrap("😀".repeat(60), 12, 100);
    assertThat(lines).hasSizeGreaterThan(1).allMatch(line -> line.length() % 2 == 0);
    assertThat(Lines.shorten("😀".repeat(60), 12, 100)).matches("(😀)+…");
  }

  @Test
  void saysWhereItCuts() {
    assertThat(Lines.shorten("after the tower", 12, 1000)).isEqualTo("after the tower");
    assertThat(Lines.shorten("after the tower", 12, 60)).startsWith("after").endsWith("…");
  }

  @Test
  void takesOutWhatNoPictureCanHold() {
    assertThat(Typeface.clean(" a\u0000b\nc\uD800d\u202Ee\uFFFF "))
        .isEqualTo("a b c\uFFFDd e\uFFFD");
  }
}
