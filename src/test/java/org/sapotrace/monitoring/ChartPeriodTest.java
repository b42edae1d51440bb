package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Charts of a period that holds nothing, and of what is none. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ChartPeriodTest {

  private TestStream stream;

  @BeforeEach
  void recordAResult() {
    stream = TestStream.soap();
    stream.record(31);
  }

  private String charts(String chart, String query) {
    return "%s/charts/%s?%s".formatted(stream.path, chart, query);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "individuals.json",
        "ewma.svg",
        "moving-range.png",
        "capability.json",
        "capability.pdf"
      })
  void areRefusedWhereThePeriodEndsBeforeItBegins(String chart) {
    JsonNode problem =
        json(400, get(charts(chart, "from=2026-02-02T00:00:00Z&to=2026-02-01T00:00:00Z")));

    assertThat(problem.get("detail").asText())
        .isEqualTo(
            "from (2026-02-02T00:00:00Z) is later than to (2026-02-01T00:00:00Z): name an earlier from, or a later to.");
  }

  @ParameterizedTest
  @ValueSource(strings = {"individuals", "moving-range", "ewma"})
  void sayThatNoResultLiesInThePeriod(String kind) {
    JsonNode chart =
        json(200, get(charts(kind + ".json", "from=2026-02-01T00:00:00Z&to=2026-02-02T00:00:00Z")));

    assertThat(chart.get("points")).isEmpty();
    assertThat(chart.get("summary").asText())
        .isEqualTo("Washed fuel, Line: no result lies in the period asked for");
  }

  @Test
  void refuseTheCapabilityOfAPeriodWithoutResultsForThatReason() {
    assertThat(
            json(422, get(charts("capability.json", "from=2026-02-01T00:00:00Z")))
                .get("detail")
                .asText())
        .startsWith("No result lies in the period asked for");
  }

  /** A period of one moment is one: both its ends belong to it. */
  @Test
  void showTheResultOfAMoment() {
    String moment = "2026-01-05T06:00:00Z";

    assertThat(
            json(200, get(charts("individuals.json", "from=%s&to=%s".formatted(moment, moment))))
                .get("points"))
        .hasSize(1);
  }

  @ParameterizedTest
  @CsvSource({
    "last=x, last must be",
    "last=0, last must be",
    "from=yesterday, from must be",
    "to=tomorrow, to must be",
    "limitsRevision=x, limitsRevision must be"
  })
  void nameTheParameterThatCannotBeRead(String query, String told) {
    for (String chart : new String[] {"individuals.json", "individuals.svg"}) {
      assertThat(json(400, get(charts(chart, query))).get("detail").asText()).startsWith(told);
    }
  }
}
