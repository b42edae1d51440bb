package org.sapotrace.titrant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class RestatedRemovalTest {

  /** The lot rises from 0.01 to 0.011 mol/L in ten days; half of that is 5 %. */
  @Test
  void followsWhereOneSideIsRestated() {
    TestLot lot = TestLot.of("hydrochloric-acid");
    lot.standardised(0.01, "2026-03-01T00:00:00Z");
    Wash wash = Wash.watched();
    wash.record("crude", "K-1", 0, 304.45);
    titrate(wash, "washed", lot, 1.0);
    lot.standardised(0.011, "2026-03-11T00:00:00Z");
    json(201, post(lot.path + "/restatements", "{\"reason\": \"bottle left open\"}"));

    JsonNode removal = wash.removal(1);
    assertThat(removal.at("/revisions/0/value").asDouble()).isCloseTo(Math.log(10), within(1e-9));
    assertThat(removal.at("/result/value").asDouble()).isCloseTo(Math.log(10 / 1.05), within(1e-9));
    assertThat(removal.at("/revisions/1/reason").asText()).contains("bottle left open");
    assertThat(wash.points("washed-removal").at("/0/value")).isEqualTo(removal.at("/result/value"));
  }

  /** What both sides share cancels in the ratio. */
  @Test
  void staysWhereBothSidesAreRestatedAlike() {
    TestLot lot = TestLot.of("hydrochloric-acid");
    lot.standardised(0.01, "2026-03-01T00:00:00Z");
    Wash wash = Wash.watched();
    titrate(wash, "crude", lot, 4.0);
    titrate(wash, "washed", lot, 1.0);
    lot.standardised(0.011, "2026-03-11T00:00:00Z");
    json(201, post(lot.path + "/restatements", "{\"reason\": \"bottle left open\"}"));

    assertThat(wash.removal(1).at("/result/value").asDouble()).isCloseTo(Math.log(4), within(1e-9));
  }

  /** Of 100 g, 1 mL of 0.01 mol/L is 30.445 mg/kg of sodium oleate. */
  private static void titrate(Wash wash, String stream, TestLot lot, double ml) {
    json(
        201,
        post(
            wash.path + stream + "/titrations",
            """
            {"batch": "K-1", "sampledAt": "2026-03-06T00:00:00Z", "titrant": {"lot": "%s"},
             "blankMl": 0, "glassware": "measuring-pipette-5ml",
             "replicates": [{"titrantMl": %s, "sampleG": 100}]}
            """
                .formatted(lot.slug, ml)));
  }
}
