package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class LookTest {

  static Stream<Color> inksOfWords() {
    return Stream.of(
        Look.INK, Look.MUTED, Look.RESULT, Look.LIMIT, Look.SPECIFICATION, Look.DRIFT, Look.SIGNAL);
  }

  // WCAG 2.1, success criterion 1.4.3: 4.5 to 1; relative luminance as defined there. It knows no
  // colour, so that it holds for a grey print as well.
  @ParameterizedTest
  @MethodSource("inksOfWords")
  void standsOutFromPaperInGreyToo(Color ink) {
    assertThat((luminance(Look.PAPER) + 0.05) / (luminance(ink) + 0.05)).isGreaterThan(4.5);
  }

  private static double luminance(Color colour) {
    return 0.2126 * linear(colour.getRed())
        + 0.7152 * linear(colour.getGreen())
        + 0.0722 * linear(colour.getBlue());
  }

  private static double linear(int channel) {
    double share = channel / 255.0;
    return share <= 0.03928 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4);
  }
}
