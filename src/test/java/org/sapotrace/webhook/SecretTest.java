package org.sapotrace.webhook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.Instant;
import java.util.Base64;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SecretTest {

  /** The example that the reference libraries of Standard Webhooks 1.0.0 are tested by. */
  @Test
  void signsAsTheReferenceLibrariesDo() {
    Secret secret = Secret.parse("whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw");

    assertThat(
            secret.sign(
                "msg_p5jXN8AQM9LWM0D4loKWxJek",
                Instant.ofEpochSecond(1_614_265_330),
                "{\"test\": 2432232314}"))
        .isEqualTo("v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=");
  }

  /**
   * Computed: printf 'a.1.ä' | openssl dgst -sha256 -mac HMAC -macopt hexkey:00…00 -binary |
   * base64.
   */
  @Test
  void signsBytesAndNotCharacters() {
    Secret zeros = Secret.parse("whsec_" + base64(32));

    assertThat(zeros.sign("a", Instant.ofEpochMilli(1_999), "ä"))
        .isEqualTo("v1,JlmqOgGu5Jej2olA3L8QyPnMDDjedb4Pzin/ToHNL/Y=");
  }

  @ParameterizedTest
  @ValueSource(ints = {24, 32, 64})
  void isReadAsItIsWritten(int bytes) {
    String text = "whsec_" + base64(bytes);

    assertThat(Secret.parse(text).text()).isEqualTo(text);
    assertThat(Secret.parse(text)).isEqualTo(Secret.parse(text)).hasToString("whsec_…");
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 23, 65})
  void rejectsOtherLengths(int bytes) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Secret.parse("whsec_" + base64(bytes)))
        .withMessageContaining("24 to 64 bytes");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "whsec_",
        "MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw",
        "whsk_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw",
        "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaS!"
      })
  void rejectsOtherTextsWithoutRepeatingThem(String text) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Secret.parse(text))
        .withMessageNotContaining("MfKQ9r8");
  }

  @Test
  void isMadeOf32BytesThatAreOthersEachTime() {
    Secret made = Secret.random();

    assertThat(Base64.getDecoder().decode(made.text().substring("whsec_".length()))).hasSize(32);
    assertThat(Secret.random()).isNotEqualTo(made);
  }

  private static String base64(int bytes) {
    return Base64.getEncoder().encodeToString(new byte[bytes]);
  }
}
