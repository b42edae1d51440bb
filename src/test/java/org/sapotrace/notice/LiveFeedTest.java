package org.sapotrace.notice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** The notices as Server-Sent Events. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class LiveFeedTest {

  @TestHTTPResource("/api/v1/notices")
  URI feed;

  private TestStream stream;

  @BeforeEach
  void putAStream() {
    stream = TestStream.soap();
  }

  /** Somebody who follows the feed, event by event. */
  private static final class Follower implements AutoCloseable {
    private final HttpResponse<java.io.InputStream> answer;
    private final BlockingQueue<List<String>> events = new LinkedBlockingQueue<>();

    Follower(URI feed, String lastEventId) throws Exception {
      HttpRequest.Builder request = HttpRequest.newBuilder(feed);
      if (lastEventId != null) {
        request.header("Last-Event-ID", lastEventId);
      }
      answer =
          HttpClient.newHttpClient()
              .send(request.build(), HttpResponse.BodyHandlers.ofInputStream());
      Thread reader = new Thread(this::read);
      reader.setDaemon(true);
      reader.start();
    }

    private void read() {
      try (BufferedReader lines =
          new BufferedReader(new InputStreamReader(answer.body(), StandardCharsets.UTF_8))) {
        List<String> event = new ArrayList<>();
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
          if (line.isEmpty()) {
            events.add(event);
            event = new ArrayList<>();
          } else {
            event.add(line);
          }
        }
      } catch (IOException hungUp) {
        // The test has seen enough.
      }
    }

    List<String> next() throws InterruptedException {
      List<String> event = events.poll(10, TimeUnit.SECONDS);
      assertThat(event).as("an event").isNotNull();
      return event;
    }

    @Override
    public void close() throws IOException {
      answer.body().close();
    }
  }

  private static String field(List<String> event, String name) {
    return event.stream()
        .filter(line -> line.startsWith(name + ":"))
        .map(line -> line.substring(name.length() + 1))
        .findFirst()
        .orElse("");
  }

  @Test
  void tellsWhatHappensFromNowOnAndWhereItGoesOn() throws Exception {
    stream.record(90);
    TestRelay.number();
    try (Follower follower = new Follower(feed, null)) {
      assertThat(follower.answer.statusCode()).isEqualTo(200);
      assertThat(follower.answer.headers().firstValue("Content-Type"))
          .hasValueSatisfying(type -> assertThat(type).startsWith("text/event-stream"));
      assertThat(follower.answer.headers().firstValue("X-Accel-Buffering")).contains("no");
      List<String> beginning = follower.next();
      assertThat(field(beginning, "data")).isEmpty();
      long number = Long.parseLong(field(beginning, "id"));

      stream.record(91);
      TestRelay.number();
      List<String> event = follower.next();
      assertThat(Long.parseLong(field(event, "id"))).isEqualTo(number + 1);
      assertThat(field(event, "event")).isEqualTo("org.sapotrace.verdict.nonconforming");
      assertThat(new ObjectMapper().readTree(field(event, "data")).at("/data/value").asDouble())
          .isEqualTo(91);
      assertThat(event).hasSize(3);
    }
  }

  @Test
  void goesOnWhereAReaderWasInterrupted() throws Exception {
    String last;
    try (Follower follower = new Follower(feed, null)) {
      last = field(follower.next(), "id");
    }
    for (int i = 0; i < 250; i++) {
      stream.record(90 + i / 1000.0);
    }
    TestRelay.number();
    try (Follower again = new Follower(feed, last)) {
      assertThat(field(again.next(), "id")).isEqualTo(last);
      for (int i = 1; i <= 250; i++) {
        assertThat(field(again.next(), "id")).isEqualTo(String.valueOf(Long.parseLong(last) + i));
      }
    }
  }

  /** A notice made early and committed late has the later number, and nobody misses it. */
  @Test
  void missesNothingThatIsCommittedLate() throws Exception {
    TestStream slow = TestStream.soap();
    CountDownLatch recorded = new CountDownLatch(1);
    CountDownLatch released = new CountDownLatch(1);
    ExecutorService other = Executors.newSingleThreadExecutor();
    try (Follower follower = new Follower(feed, null)) {
      follower.next();
      Future<?> late = other.submit(() -> recordSlowly(slow, recorded, released));
      recorded.await();
      stream.record(91);
      TestRelay.number();
      assertThat(field(follower.next(), "data")).contains(stream.line);
      released.countDown();
      late.get();
      TestRelay.number();
      assertThat(field(follower.next(), "data")).contains(slow.line);
    } finally {
      other.shutdownNow();
    }
  }

  private static void recordSlowly(
      TestStream slow, CountDownLatch recorded, CountDownLatch released) {
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              TestRelay.recordNonconforming(slow);
              recorded.countDown();
              try {
                assertThat(released.await(10, TimeUnit.SECONDS)).isTrue();
              } catch (InterruptedException interrupted) {
                Thread.currentThread().interrupt();
              }
            });
  }

  @Test
  void refusesWhatIsNoNumber() {
    for (String none : List.of("x", "-1", "1.5", "99999999999999999999")) {
      json(400, RestAssured.given().header("Last-Event-ID", none).get("/api/v1/notices"));
    }
    json(406, RestAssured.given().accept("application/json").get("/api/v1/notices"));
    json(400, get("/notices?after=1"));
  }
}
