package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.Browser;
import org.sapotrace.testing.RunningService;

/** The pages in a browser of the size of a phone, which runs no script of theirs. */
class BrowserIT {

  private static final int WIDTH = 360;
  private static final int HEIGHT = 740;

  @TempDir static Path directory;

  private static RunningService service;
  private static Browser browser;

  @BeforeAll
  static void start() {
    Optional<Path> program = Browser.installed();
    assumeTrue(program.isPresent(), "No Chromium found: the pages were not looked at");
    service = RunningService.Setup.on(directory).start();
    browser = Browser.start(program.get());
    browser.withoutScripts();
  }

  @AfterAll
  static void stop() {
    try {
      if (browser != null) {
        browser.close();
      }
    } finally {
      if (service != null) {
        service.close();
      }
    }
  }

  @BeforeEach
  void takeAPhone() {
    browser.resize(WIDTH, HEIGHT);
    browser.preferDark(false);
  }

  @Test
  void fitsAPhoneFromTheFirstPageToTheResult() throws IOException {
    browser.open(service.baseUrl().resolve("/"));
    assertThat(text("h1")).isEqualTo("Nothing to titrate for yet");
    assertFits();

    put("/api/v1/lines/harbour", "{\"name\": \"Harbour line\", \"alkali\": \"sodium\"}");
    put(
        "/api/v1/lines/harbour/streams/washed",
        """
        {"name": "Fuel after the wash and the dry-wash tower, before storage",
         "samplingPoint": "after-wash", "measurand": "soap", "unit": "mg/kg"}
        """);
    browser.open(service.baseUrl().resolve("/"));
    assertFits();
    browser.follow("document.querySelector('.streams a').click()");
    assertFits();
    type(Map.of("titrant.normality", "1,002"));
    browser.evaluate("document.querySelector('form').noValidate = true");
    browser.follow("document.querySelector('form button').click()");
    assertThat(text(".faults h2")).isEqualTo("Nothing was recorded yet");
    assertFits();
    type(
        Map.of(
            "batch", "K-0146",
            "titrant.normality", "0,01002",
            "replicates.1.titrantMl", "1.68",
            "replicates.1.sampleG", "100.2"));
    browser.follow("document.querySelector('form button').click()");

    assertThat(browser.evaluate("location.pathname").asText()).startsWith("/results/");
    assertThat(text("h1")).startsWith("Release").contains("mg/kg");
    assertThat(browser.evaluate("document.querySelector('.chart img').naturalWidth").asInt())
        .isEqualTo(330);
    assertFits();
    fitsTheReviewOfALine();
    assertThat(browser.complaints()).allMatch(complaint -> complaint.contains("422"));
  }

  private static void fitsTheReviewOfALine() throws IOException {
    put("/api/v1/lines/quay", "{\"name\": \"Quay line\", \"alkali\": \"potassium\"}");
    String stream = "/api/v1/lines/quay/streams/polished";
    put(
        stream,
        """
        {"name": "Fuel after the dry-wash tower, before storage",
         "samplingPoint": "after-dry-wash", "measurand": "soap", "unit": "mg/kg"}
        """);
    post(stream + "/limits", "{\"given\": {\"centre\": 20, \"sigma\": 2}}");
    for (int value : new int[] {21, 45, 20, 47}) {
      post(
          stream + "/results",
          "{\"batch\": \"B\", \"sampledAt\": \"2026-01-05T06:00:00Z\", \"values\": [%d]}"
              .formatted(value));
    }
    for (int width : new int[] {320, WIDTH, 400}) {
      browser.resize(width, HEIGHT);
      browser.open(service.baseUrl().resolve("/lines/quay"));
      assertFits(width);
      browser.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)");
      assertFits(width);
    }
    assertThat(text(".task.nonconforming h3")).startsWith("Wash again");
    assertThat(text(".task.signalling h3")).startsWith("Find the cause");
    assertThat(text("#polished .figure")).isEqualTo("47 mg/kg");
    assertThat(browser.evaluate("document.querySelector('.chart img').naturalWidth").asInt())
        .isEqualTo(330);
    browser.follow("document.querySelector('#polished .links .button').click()");
    assertThat(browser.evaluate("location.pathname").asText())
        .isEqualTo("/lines/quay/streams/polished");
  }

  @Test
  void followsADeviceThatPrefersTheDark() throws IOException {
    browser.open(service.baseUrl().resolve("/"));
    int light = corner(browser.screenshot());
    browser.preferDark(true);
    int dark = corner(browser.screenshot());

    // The paper of both: sapotrace.css.
    assertThat(light).isEqualTo(0xFBFAF7);
    assertThat(dark).isEqualTo(0x14181D);
  }

  /** Nothing lies beyond the right edge, and whatever is touched is large enough for a finger. */
  private static void assertFits() throws IOException {
    assertFits(WIDTH);
  }

  private static void assertFits(int width) throws IOException {
    assertThat(browser.evaluate("document.documentElement.scrollWidth").asInt()).isEqualTo(width);
    assertThat(browser.evaluate("innerWidth").asInt()).isEqualTo(width);
    assertThat(
            browser
                .evaluate(
                    """
                    [...document.querySelectorAll('a, button, select, summary, input:not([type=hidden])')]
                      .map(each => [each.outerHTML, each.getBoundingClientRect().height])
                      .filter(each => each[1] > 0 && each[1] < 44)
                      .map(each => each[0]).join()
                    """)
                .asText())
        .isEmpty();
    BufferedImage seen = ImageIO.read(new ByteArrayInputStream(browser.screenshot()));
    assertThat(seen.getWidth()).isEqualTo(width);
    assertThat(seen.getHeight()).isEqualTo(HEIGHT);
  }

  private static String text(String selector) {
    return browser
        .evaluate("document.querySelector('%s').innerText".formatted(selector))
        .asText()
        .replaceAll("\\s+", " ");
  }

  private static void type(Map<String, String> texts) {
    texts.forEach(
        (field, text) ->
            browser.evaluate("document.getElementById('%s').value = '%s'".formatted(field, text)));
  }

  private static void put(String path, String body) {
    send("PUT", path, body);
  }

  private static void post(String path, String body) {
    send("POST", path, body);
  }

  private static void send(String method, String path, String body) {
    int status =
        service
            .send(
                HttpRequest.newBuilder(service.baseUrl().resolve(path))
                    .header("Content-Type", "application/json")
                    .method(method, HttpRequest.BodyPublishers.ofString(body))
                    .build())
            .statusCode();
    assertThat(status).isEqualTo(201);
  }

  /** The colour at the lower left corner, without its opacity. */
  private static int corner(byte[] png) throws IOException {
    BufferedImage picture = ImageIO.read(new ByteArrayInputStream(png));
    return picture.getRGB(2, picture.getHeight() - 2) & 0xFFFFFF;
  }
}
