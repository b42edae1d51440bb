package org.sapotrace.pages;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DecimalTextTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0.47 | 0.47",
        "0,47 | 0.47",
        ",5 | 0.5",
        ".5 | 0.5",
        "5. | 5",
        "0,470 | 0.470",
        "00,470 | 0.470",
        "1,2345 | 1.2345",
        "1,2340 | 1.234",
        "1.234 | 1.234",
        "1234,567 | 1234.567",
        "-0,02 | -0.02",
        "\u22120.02 | -0.02",
        "+1 | 1",
        "007 | 7"
      })
  void readsAPointAndACommaAlike(String text, double number) {
    assertThat(DecimalText.parse(text)).isEqualTo(number);
  }

  @ParameterizedTest
  @ValueSource(strings = {"1,234", "40,025", "100,200", "-1,234"})
  void refusesACommaThatMayPartThousands(String text) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> DecimalText.parse(text))
        .withMessageContaining("may mean");
  }

  @Test
  void saysHowToWriteWhatWasMeant() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> DecimalText.parse("40,025"))
        .withMessage(
            "40,025 may mean 40.025 or 40025. Write 40.025, or 40,0250 if there is no point on your keyboard.");
    assertThat(DecimalText.parse("40,0250")).isEqualTo(40.025);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " ",
        "1e999",
        "1e3",
        "NaN",
        "Infinity",
        "0x10",
        "1 000",
        "1,234,567",
        "1,234.5",
        "1.234,5",
        "1.2.3",
        "--1",
        ".",
        ",",
        "0.47 mL",
        "half",
        "\u0660",
        "1d",
        "11111111111111111111111111111111111111111"
      })
  void refusesWhatIsNoNumberInDigits(String text) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> DecimalText.parse(text))
        .withMessage("Write a number in digits, such as 0.47.");
  }

  @Test
  void writesWhatItReadsAgain() {
    SplittableRandom random = new SplittableRandom(20260304);
    for (int i = 0; i < 1000; i++) {
      double number = Math.scalb(random.nextDouble() - 0.5, random.nextInt(-20, 20));
      assertThat(DecimalText.parse(DecimalText.write(number))).isEqualTo(number);
    }
    assertThat(DecimalText.write(40)).isEqualTo("40");
    assertThat(DecimalText.write(0)).isEqualTo("0");
    assertThat(DecimalText.write(1e-5)).isEqualTo("0.00001");
  }
}
