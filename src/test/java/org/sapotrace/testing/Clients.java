package org.sapotrace.testing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Clients that record into one stream as a plant's systems should: each result with a key of its
 * own, and again with the same key until it is answered. They keep what they were told, for a test
 * to compare it with what is stored.
 */
public final class Clients implements AutoCloseable {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Instant FIRST = Instant.parse("2026-03-01T00:00:00Z");
  private static final int COUNT = 4;

  private final HttpClient http = HttpClient.newHttpClient();
  private final String stream;
  private final ExecutorService threads = Executors.newFixedThreadPool(COUNT);
  private final AtomicInteger next = new AtomicInteger();
  private final Map<String, JsonNode> told = new ConcurrentHashMap<>();
  private final Queue<String> surprises = new ConcurrentLinkedQueue<>();
  private final AtomicInteger turnedAway = new AtomicInteger();
  private volatile List<URI> services;
  private volatile boolean stopping;

  /** Clients of some services on one database, that take turns. */
  public Clients(String stream, URI... services) {
    this.stream = stream;
    this.services = List.of(services);
    for (int client = 0; client < COUNT; client++) {
      threads.execute(this::work);
    }
  }

  /** From now on they turn to another service. */
  public void turnTo(URI service) {
    services = List.of(service);
  }

  /** Waits until so many more results are acknowledged. */
  public void awaitAcknowledged(int more) {
    int wanted = told.size() + more;
    await()
        .atMost(Duration.ofSeconds(90))
        .failFast(() -> assertThat(surprises).isEmpty())
        .until(() -> told.size() >= wanted);
  }

  /** Waits until so many more tries failed, as a service or its database was away. */
  public void awaitTurnedAway(int more) {
    int wanted = turnedAway.get() + more;
    await().atMost(Duration.ofSeconds(60)).until(() -> turnedAway.get() >= wanted);
  }

  /** Lets each finish its result; what was acknowledged, by batch. */
  public Map<String, JsonNode> stop() {
    stopping = true;
    threads.shutdown();
    try {
      assertThat(threads.awaitTermination(90, TimeUnit.SECONDS)).isTrue();
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
    assertThat(surprises).isEmpty();
    return Map.copyOf(told);
  }

  private void work() {
    while (!stopping) {
      int i = next.getAndIncrement();
      boolean isTold = false;
      while (!isTold) {
        try {
          isTold = isTold(i);
        } catch (IOException away) {
          pause();
        }
      }
    }
  }

  private boolean isTold(int i) throws IOException {
    List<URI> now = services;
    HttpResponse<String> answer =
        send(
            HttpRequest.newBuilder(now.get(i % now.size()).resolve(stream + "/results"))
                .header("Content-Type", "application/json")
                .header("Idempotency-Key", "result-" + i)
                .timeout(Duration.ofSeconds(60))
                .POST(HttpRequest.BodyPublishers.ofString(row(i)))
                .build());
    if (answer.statusCode() == 503) {
      pause();
      return false;
    }
    if (answer.statusCode() == 201) {
      told.put(batch(i), JSON.readTree(answer.body()));
    } else {
      surprises.add(answer.statusCode() + " " + answer.body());
    }
    return true;
  }

  private HttpResponse<String> send(HttpRequest request) throws IOException {
    try {
      return http.send(request, HttpResponse.BodyHandlers.ofString());
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
  }

  private void pause() {
    turnedAway.incrementAndGet();
    try {
      Thread.sleep(100);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
  }

  private static String batch(int i) {
    return "K-" + i;
  }

  /** A quiet series in which every twenty-third result lies beyond any limit. */
  public static String row(int i) {
    return "{\"batch\": \"%s\", \"sampledAt\": \"%s\", \"values\": [%d]}"
        .formatted(batch(i), FIRST.plusSeconds(60L * i), i % 23 == 22 ? 60 : 30 + i % 7);
  }

  @Override
  public void close() {
    stopping = true;
    threads.shutdownNow();
  }
}
