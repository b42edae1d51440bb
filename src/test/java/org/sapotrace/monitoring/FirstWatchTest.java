package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Results that no limits judge yet are looked at beside those before them. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class FirstWatchTest {

  // By hand, see StartUpTest: after 0 and 2, a result of 4 has Q = 0.96742157.
  @Test
  void beginsWithTheThirdResult() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    assertThat(stream.record(0).at("/control/firstWatch").isNull()).isTrue();
    assertThat(stream.record(2).at("/control/firstWatch").isNull()).isTrue();
    JsonNode watch = stream.record(4).at("/control/firstWatch");
    assertThat(watch.get("q").asDouble()).isCloseTo(0.96742157, within(1e-8));
    assertThat(watch.get("unusual").asBoolean()).isFalse();
    assertThat(watch.get("text").asText())
        .isEqualTo(
            "First watch, before there are limits: 4 lies 0.9674 standard deviations above what"
                + " the 2 results before it lead to expect.");
  }

  @Test
  void marksWhatIsUnusualAndRaisesNoSignal() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    for (int i = 0; i < 12; i++) {
      stream.record(30 + i % 3);
    }
    JsonNode control = stream.record(60).get("control");
    assertThat(control.at("/firstWatch/unusual").asBoolean()).isTrue();
    assertThat(control.at("/firstWatch/q").asDouble()).isGreaterThan(3);
    assertThat(control.get("signals")).isEmpty();
  }

  /** Each by those before it alone, in the order of sampling, also when they are listed. */
  @Test
  void isTheSameHoweverItIsAskedFor() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    for (double value : new double[] {3, 5, 4, 4, 6, 2}) {
      stream.record(value);
    }
    JsonNode items = json(200, get(stream.path + "/results")).get("items");
    for (JsonNode item : items) {
      assertThat(json(200, get("/results/" + item.get("id").asText())).at("/control/firstWatch"))
          .isEqualTo(item.at("/control/firstWatch"));
    }
    assertThat(items.at("/5/control/firstWatch/q").asDouble()).isNegative();
  }

  @Test
  void judgesByLogarithmsOnALogScale() {
    TestStream log = TestStream.charted("{\"scale\": \"log\"}");
    TestStream linear = TestStream.charted("{}");
    JsonNode last = null;
    JsonNode same = null;
    for (double value : new double[] {20, 0, 25, 31}) {
      last = log.record(value);
      if (value > 0) {
        same = linear.record(Math.log(value));
      }
    }
    assertThat(last.at("/control/firstWatch/q")).isEqualTo(same.at("/control/firstWatch/q"));
  }

  @Test
  void endsWithTheFirstLimits() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    for (int i = 0; i < 8; i++) {
      stream.record(30 + i % 3);
    }
    stream.adopt("{\"baseline\": {\"first\": 8}}");
    assertThat(stream.record(31).at("/control/firstWatch").isNull()).isTrue();
  }
}
