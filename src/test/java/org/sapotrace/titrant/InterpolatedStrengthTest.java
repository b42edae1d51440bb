package org.sapotrace.titrant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.util.UUID;
import javax.sql.DataSource;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.bench.LotStrength;
import org.sapotrace.bench.TitrantLots;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class InterpolatedStrengthTest {

  @Inject TitrantLots lots;
  @Inject DataSource database;

  private TestLot lot;

  @BeforeEach
  void setUp() {
    lot = TestLot.of("hydrochloric-acid");
  }

  /** Computed: 0.0100 on the 1st and 0.0104 on the 5th are 0.0101 on the 2nd. */
  @ParameterizedTest
  @CsvSource({
    "2025-12-01T00:00:00Z, 0.0100",
    "2026-01-01T00:00:00Z, 0.0100",
    "2026-01-02T00:00:00Z, 0.0101",
    "2026-01-04T12:00:00Z, 0.01035",
    "2026-01-05T00:00:00Z, 0.0104",
    "2026-03-01T00:00:00Z, 0.0104"
  })
  void liesOnTheLineBetweenStandardisations(String at, double expected) {
    lot.standardised(0.0100, "2026-01-01T00:00:00Z");
    lot.standardised(0.0104, "2026-01-05T00:00:00Z");
    LotStrength found = lots.interpolated(lot.slug, Instant.parse(at));

    assertThat(found.normality().quantity().molesPerLitre()).isCloseTo(expected, within(1e-9));
    assertThat(found.isInterpolated()).isTrue();
  }

  @Test
  void isTheNominalOneWithoutAnyStandardisation() {
    LotStrength found = lots.interpolated(lot.slug, Instant.parse("2026-01-01T00:00:00Z"));

    assertThat(found.normality().quantity().molesPerLitre()).isEqualTo(0.01);
    assertThat(found.cautions()).hasSize(1);
  }

  @Test
  void saysWhereTheNearestStandardisationIsFarOff() {
    lot.standardised(0.0100, "2026-01-01T00:00:00Z");
    lot.standardised(0.0100, "2026-03-31T00:00:00Z");

    assertThat(lots.interpolated(lot.slug, Instant.parse("2026-01-31T00:00:00Z")).cautions())
        .isEmpty();
    assertThat(lots.interpolated(lot.slug, Instant.parse("2026-02-10T00:00:00Z")).cautions())
        .singleElement()
        .asString()
        .contains("40 days before");
    assertThat(lots.interpolated(lot.slug, Instant.parse("2026-02-20T00:00:00Z")).cautions())
        .singleElement()
        .asString()
        .contains("39 days later");
  }

  /** What a restatement has interpolated, a correction of the same sample does not undo. */
  @Test
  void isTakenAgainByACorrection() throws SQLException {
    lot.standardised(0.0100, "2026-01-01T00:00:00Z");
    lot.standardised(0.0104, "2026-01-05T00:00:00Z");
    String titration =
        """
        {"batch": "K-0142", "sampledAt": "2026-01-02T00:00:00Z", "titrant": {"lot": "%s"},
         "replicates": [{"titrantMl": 2.27, "sampleG": 100}]}
        """
            .formatted(lot.slug);
    String id =
        json(201, post(TestStream.soap().path + "/titrations", titration)).get("id").asText();
    String correction = "{\"reason\": \"r\", \"titration\": " + titration + "}";

    assertThat(normality(json(201, post("/results/" + id + "/corrections", correction))))
        .isCloseTo(0.01, within(1e-9));
    interpolate(id);
    assertThat(normality(json(201, post("/results/" + id + "/corrections", correction))))
        .isCloseTo(0.0101, within(1e-9));
    assertThat(json(200, get("/results/" + id)).at("/titrant/interpolated").asBoolean()).isTrue();
  }

  private static double normality(JsonNode result) {
    return result.at("/titrant/normality").asDouble();
  }

  /** Has the latest revision say that its strength was interpolated. */
  private void interpolate(String id) throws SQLException {
    try (Connection connection = database.getConnection();
        PreparedStatement update =
            connection.prepareStatement(
                "update result_revision set determination = jsonb_set(determination,"
                    + " '{titrant,interpolated}', 'true') where result_id = ?")) {
      update.setObject(1, UUID.fromString(id));
      update.executeUpdate();
    }
  }
}
