package org.sapotrace.pages;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;

/** Somebody at the bench with a browser that runs no script: cookies, pages and forms. */
final class BenchVisit {

  private final Map<String, String> cookies = new LinkedHashMap<>();
  private Response answer;

  /** Opens an address. */
  Document open(String path) {
    keep(
        given()
            .urlEncodingEnabled(false)
            .redirects()
            .follow(false)
            .cookies(cookies)
            .accept("text/html")
            .get(path));
    return page();
  }

  /**
   * Sends the form of the page with what it holds, as its first button does.
   *
   * @param typed what is typed into it, by the names of the fields
   */
  Response send(Document page, Map<String, String> typed) {
    Map<String, String> fields = fields(page);
    typed.forEach(
        (name, text) -> {
          assertThat(fields).as("fields of the form").containsKey(name);
          fields.put(name, text);
        });
    return sendFields(page, fields);
  }

  /** Sends anything to where the form of a page goes. */
  Response sendFields(Document page, Map<String, String> fields) {
    String action = page.selectFirst("form").attr("action");
    assertThat(page.selectFirst("form").attr("method")).isEqualTo("post");
    keep(
        given()
            .redirects()
            .follow(false)
            .cookies(cookies)
            .accept("text/html,application/xhtml+xml,*/*;q=0.8")
            .contentType("application/x-www-form-urlencoded; charset=utf-8")
            .formParams(fields)
            .post(action));
    return answer;
  }

  /** Follows where the last answer leads. */
  Document follow() {
    assertThat(answer.statusCode()).as("%s", answer.asString()).isEqualTo(303);
    return open(answer.header("Location").replaceFirst("^https?://[^/]+", ""));
  }

  /** The last answer, which is a page. */
  Document page() {
    assertThat(answer.contentType()).isEqualToIgnoringCase("text/html;charset=UTF-8");
    return Jsoup.parse(answer.asString());
  }

  Response answer() {
    return answer;
  }

  /** What the form of a page holds. */
  static Map<String, String> fields(Document page) {
    Map<String, String> fields = new LinkedHashMap<>();
    for (Element input : page.select("form input")) {
      fields.put(input.attr("name"), input.attr("value"));
    }
    for (Element select : page.select("form select")) {
      Element chosen = select.selectFirst("option[selected]");
      fields.put(select.attr("name"), chosen == null ? "" : chosen.attr("value"));
    }
    return fields;
  }

  /** What a page says is wrong with a field, as one is told who cannot see it. */
  static String fault(Document page, String field) {
    Element input = page.getElementById(field);
    assertThat(input).as("field " + field).isNotNull();
    assertThat(input.attr("aria-invalid")).as("%s", field).isEqualTo("true");
    assertThat(input.attr("aria-describedby").split(" ")).contains(field + "-fault");
    assertThat(page.select(".faults a[href=#" + field + "]")).hasSize(1);
    return page.getElementById(field + "-fault").text();
  }

  void forgetCookies() {
    cookies.clear();
  }

  private void keep(Response next) {
    answer = next;
    cookies.putAll(next.cookies());
  }
}
