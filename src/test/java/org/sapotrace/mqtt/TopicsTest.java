package org.sapotrace.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.notice.Outbox;

class TopicsTest {

  private final Topics topics =
      new Topics(
          MqttSettings.of(
              Optional.of("mqtt://b"), Optional.empty(), Optional.empty(), Optional.of("a/b.c")),
          new ObjectMapper());

  /** The data of events are those of the contract's examples, shortened. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          {"line": "jetty", "stream": "washed"}  | a/b.c/lines/jetty/streams/washed/notices/t
          {"line": null, "stream": "hcl-2026-07"} | a/b.c/titrants/hcl-2026-07/notices/t
          {"titrant": "hcl-2026-07"}             | a/b.c/titrants/hcl-2026-07/notices/t
          """)
  void noticesGoUnderWhatTheyAreAbout(String data, String topic) {
    assertThat(topics.of(new Outbox.Numbered(1, "t", "{\"data\": %s}".formatted(data))))
        .isEqualTo(topic);
  }

  @Test
  void resultsAndTheirAnswersGoUnderTheirStream() {
    Topics.Place place = topics.place("a/b.c/lines/jetty/streams/washed/results");
    assertThat(place).isEqualTo(new Topics.Place("jetty", "washed"));
    assertThat(topics.answer(place, "refused"))
        .isEqualTo("a/b.c/lines/jetty/streams/washed/refused");
    assertThat(topics.results()).isEqualTo("a/b.c/lines/+/streams/+/results");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "a/bxc/lines/jetty/streams/washed/results",
        "a/b.c/lines/jetty/streams/washed/recorded",
        "a/b.c/lines/jetty/x/streams/washed/results"
      })
  void otherTopicsAreNobodys(String topic) {
    assertThat(topics.place(topic)).isNull();
  }
}
