package org.sapotrace.notice.rest;

import jakarta.ws.rs.sse.OutboundSseEvent;
import jakarta.ws.rs.sse.Sse;
import jakarta.ws.rs.sse.SseEventSink;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.sapotrace.notice.Outbox;

/*
 * What a reader has not taken yet is at most one page: the next is fetched once the one before has
 * left. So a slow reader costs no more memory than a quick one, and one that takes nothing is
 * hung up on, and comes back with the number of the last notice it got.
 */
/** Somebody who follows the feed, and how far. */
final class LiveReader {

  /** What is in the feed behind a number (exclusive). */
  @FunctionalInterface
  interface Pages {
    List<Outbox.Numbered> after(long exclusive, int most);
  }

  private static final int PAGE = 100;
  private static final Duration HEARTBEAT = Duration.ofSeconds(15);
  private static final Duration PATIENCE = Duration.ofSeconds(30);

  private final SseEventSink sink;
  private final Sse sse;
  private long number;
  private Instant lastSentAt;
  private CompletableFuture<?> leaving;

  /**
   * A reader who is told where it stands, so that it can go on from there whatever happens.
   *
   * @param number of the last notice that it knows
   */
  LiveReader(SseEventSink sink, Sse sse, long number, Instant now) {
    this.sink = sink;
    this.sse = sse;
    this.number = number;
    this.lastSentAt = now;
    this.leaving =
        sent(
            List.of(
                sse.newEventBuilder()
                    .comment("the feed stands here")
                    .id(String.valueOf(number))
                    .build()));
  }

  /**
   * Sends what there is to send.
   *
   * @param last the number of the last notice
   * @return whether the reader is still there
   */
  boolean turn(Pages feed, long last, Instant now) {
    if (sink.isClosed() || leaving.isCompletedExceptionally()) {
      return false;
    }
    if (!leaving.isDone()) {
      return Duration.between(lastSentAt, now).compareTo(PATIENCE) <= 0;
    }
    if (number < last) {
      List<Outbox.Numbered> page = feed.after(number, PAGE);
      send(page.stream().map(this::event).toList(), now);
      number = page.isEmpty() ? number : page.get(page.size() - 1).number();
    } else if (Duration.between(lastSentAt, now).compareTo(HEARTBEAT) >= 0) {
      send(List.of(sse.newEventBuilder().comment("still here").build()), now);
    }
    return true;
  }

  void hangUp() {
    sink.close();
  }

  private void send(List<OutboundSseEvent> events, Instant now) {
    leaving = sent(events);
    lastSentAt = now;
  }

  private CompletableFuture<?> sent(List<OutboundSseEvent> events) {
    List<CompletableFuture<?>> each = new ArrayList<>();
    events.forEach(event -> each.add(sink.send(event).toCompletableFuture()));
    return CompletableFuture.allOf(each.toArray(CompletableFuture[]::new));
  }

  private OutboundSseEvent event(Outbox.Numbered notice) {
    return sse.newEventBuilder()
        .id(String.valueOf(notice.number()))
        .name(notice.type())
        .data(notice.event())
        .build();
  }
}
