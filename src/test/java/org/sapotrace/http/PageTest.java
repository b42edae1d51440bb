package org.sapotrace.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.sapotrace.http.ProblemAssertions.assertProblem;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.RawHttp;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class PageTest extends ProbeTest {

  @Test
  void leadsThroughTheWholeListByItsLinks() throws IOException {
    List<Integer> met = new ArrayList<>();
    String next = "/probe/pages?limit=100&q=a%20b%26c";
    while (next != null) {
      RawHttp.Answer answer = http().get(next);
      assertThat(answer.status()).isEqualTo(200);
      JsonNode page = new ObjectMapper().readTree(answer.body());
      page.path("items").forEach(item -> met.add(item.asInt()));
      String link = answer.header("Link");
      assertThat(link.isEmpty()).isEqualTo(page.path("next").isNull());
      // RFC 8288, section 3.
      assertThat(link).matches("(</probe/pages\\?.*q=a%20b%26c.*>; rel=\"next\")?");
      next = link.isEmpty() ? null : link.substring(1, link.indexOf('>'));
    }
    assertThat(met).isEqualTo(IntStream.range(0, 250).boxed().toList());
  }

  @Test
  void answersAHundredEntriesUnlessToldOtherwise() throws IOException {
    assertThat(items("")).isEqualTo(100);
    assertThat(items("?limit=1")).isEqualTo(1);
    assertThat(items("?limit=1000")).isEqualTo(250);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "limit=0",
        "limit=1001",
        "limit=-1",
        "limit=x",
        "limit=1e2",
        "limit=%2B1",
        "limit=99999999999",
        "limit=",
        "cursor=abc",
        "cursor=",
        "cursor=%00",
        "cursor=AAAAAAAAAAAAAA"
      })
  void answers400ToPagesThatAreNot(String query) {
    assertProblem(http().get("/probe/pages?" + query), 400);
  }

  @Test
  void keepsACursorWhole() {
    Cursor cursor = new Cursor("2026-03-04T09:20:00Z", "é…");

    assertThat(Cursor.parse(cursor.text("results"), "results")).isEqualTo(cursor);
  }

  @Test
  void refusesACursorOfAnotherListOrCutOrChanged() {
    String text = new Cursor("key", "id").text("results");

    for (String foreign :
        List.of(text.substring(1), text.substring(0, text.length() - 2), text + "AA")) {
      assertThatThrownBy(() -> Cursor.parse(foreign, "results"))
          .hasMessageContaining("begin again");
    }
    assertThatThrownBy(() -> Cursor.parse(text, "lots")).hasMessageContaining("begin again");
  }

  private int items(String query) throws IOException {
    return new ObjectMapper()
        .readTree(http().get("/probe/pages" + query).body())
        .path("items")
        .size();
  }
}
