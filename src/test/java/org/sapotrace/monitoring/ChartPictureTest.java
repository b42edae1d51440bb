package org.sapotrace.monitoring;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class ChartPictureTest {

  @ParameterizedTest
  @CsvSource({"600, 360", "1000, 560", "1600, 900"})
  void hasExactlyTheSizeThatIsAskedFor(int width, int height) throws Exception {
    Response answer =
        get(charts(drifting()) + "individuals.png?width=%d&height=%d".formatted(width, height));

    assertThat(answer.contentType()).isEqualTo("image/png");
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(answer.asByteArray()));
    assertThat(image.getWidth()).isEqualTo(width);
    assertThat(image.getHeight()).isEqualTo(height);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "individuals.png",
        "individuals.svg",
        "individuals.pdf",
        "individuals.json",
        "moving-range.png",
        "moving-range.svg",
        "moving-range.json"
      })
  void isNotSentAgainToWhoHasIt(String chart) {
    TestStream stream = drifting();
    Response first = get(charts(stream) + chart);
    Response again =
        given()
            .header("If-None-Match", first.header("ETag"))
            .get("/api/v1" + charts(stream) + chart);

    assertThat(first.statusCode()).isEqualTo(200);
    assertThat(first.header("ETag")).startsWith("\"");
    assertThat(again.statusCode()).isEqualTo(304);
    assertThat(again.asByteArray()).isEmpty();
    assertThat(get(charts(stream) + chart).asByteArray()).isEqualTo(first.asByteArray());
  }

  @Test
  void hasAnotherTagOnceThereIsMoreToShow() {
    TestStream stream = drifting();
    String before = get(charts(stream) + "individuals.png").header("ETag");
    stream.record(11);

    assertThat(get(charts(stream) + "individuals.png").header("ETag")).isNotEqualTo(before);
  }

  @Test
  void saysInWordsWhatItShows() {
    TestStream stream = drifting();
    String svg = get(charts(stream) + "individuals.svg").asString();

    assertThat(svg)
        .contains("Flow, Line: out of control since 5 Jan")
        .contains("upper control limit 13")
        .contains("one result beyond a control limit");
    assertThat(stream.chart("individuals").get("summary").asText())
        .isEqualTo("Flow, Line: out of control since 5 Jan");
  }

  @Test
  void showsTheLatestOrAPeriodWhenAsked() {
    TestStream stream = drifting();

    JsonNode last = json(200, get(charts(stream) + "individuals.json?last=3"));
    assertThat(last.get("points").findValuesAsText("value"))
        .containsExactly("11.0", "12.0", "14.0");
    JsonNode period =
        json(
            200,
            get(
                charts(stream)
                    + "individuals.json?from=2026-01-05T07:00:00Z&to=2026-01-05T08:00:00Z"));
    assertThat(period.get("points").findValuesAsText("value")).containsExactly("9.0", "10.0");
    // A range reaches back over the edge of what is shown.
    JsonNode ranges = json(200, get(charts(stream) + "moving-range.json?last=2"));
    assertThat(ranges.get("points").findValuesAsText("plotted")).containsExactly("1.0", "2.0");
  }

  @ParameterizedTest
  @CsvSource({
    "individuals.png?width=0, 400",
    "individuals.svg?height=-1, 400",
    "individuals.png?width=10, 400",
    "individuals.png?width=5000&height=5000, 400",
    "individuals.png?last=0, 400",
    "individuals.png?last=2&from=2026-01-05T07:00:00Z, 400",
    "individuals.png?limitsRevision=9, 404",
    "individuals.pdf?width=5000&height=5000, 400",
    "range.pdf, 422",
    "capability.png, 422",
    "pie.png, 404"
  })
  void refusesWhatItCannotDraw(String chart, int status) {
    json(status, get(charts(drifting()) + chart));
  }

  private static String charts(TestStream stream) {
    return stream.path + "/charts/";
  }

  /** Six results under given limits of 7 and 13, the last beyond them. */
  private static TestStream drifting() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 1}}");
    for (double value : new double[] {10, 9, 10, 11, 12, 14}) {
      stream.record(value);
    }
    return stream;
  }
}
