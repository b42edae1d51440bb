package org.sapotrace.pages;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/** Nobody enters a removal, so no page leads to a form for one. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class RemovalPageTest {

  private final BenchVisit visit = new BenchVisit();
  private Wash wash;

  @BeforeEach
  void setUp() {
    wash = Wash.watched();
  }

  @Test
  void isNotAmongTheStreamsToChoose() {
    Document page = visit.open("/");

    assertThat(page.select("a[href=" + wash.path + "washed]")).hasSize(1);
    assertThat(page.select("a[href=" + wash.path + "washed-removal]")).isEmpty();
    Document form = visit.open(wash.path + "washed-removal");
    assertThat(visit.answer().statusCode()).isEqualTo(404);
    assertThat(form.text()).contains("Nothing is entered for Removal: Washed fuel");
  }

  @Test
  void isShownWithItsChartAndWithoutAWayToCorrectIt() {
    wash.record("crude", "K-1", 0, 500);
    wash.record("washed", "K-1", 1, 50);
    String path = "/results/" + wash.removal(1).get("id").asText();
    Document page = visit.open(path);

    // ln 10 = 2.302585
    assertThat(page.select("h1").text()).isEqualTo("Recorded 2.303");
    assertThat(page.select("figure.chart img")).hasSize(1);
    assertThat(page.select(".actions a")).isEmpty();
    Document correction = visit.open(path + "/correction");
    assertThat(visit.answer().statusCode()).isEqualTo(409);
    assertThat(correction.text()).contains("correct those");
  }

  @Test
  void isMissedWithTheReasonOnTheResultThatHasNone() {
    wash.record("crude", "K-1", 0, 500);
    String id = wash.record("washed", "K-1", 1, -1).get("id").asText();

    assertThat(visit.open("/results/" + id).text()).contains("Batch K-1 has no removal");
  }
}
