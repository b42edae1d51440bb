package org.sapotrace.notice.rest;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.ws.rs.sse.OutboundSseEvent;
import jakarta.ws.rs.sse.SseEventSink;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.stream.LongStream;
import org.jboss.resteasy.reactive.server.jaxrs.SseImpl;
import org.junit.jupiter.api.Test;
import org.sapotrace.notice.Outbox;

/** How a reader is served that takes its time, by a clock that is set by hand. */
class LiveReaderTest {

  private static final Instant NOW = Instant.parse("2026-03-04T09:20:00Z");
  private static final long LAST = 1_000;

  /** A connection that takes what it is given when the test says so. */
  private static final class Connection implements SseEventSink {
    final List<OutboundSseEvent> given = new ArrayList<>();
    final List<CompletableFuture<Void>> leaving = new ArrayList<>();
    boolean closed;

    @Override
    public CompletionStage<?> send(OutboundSseEvent event) {
      given.add(event);
      leaving.add(new CompletableFuture<>());
      return leaving.get(leaving.size() - 1);
    }

    void takeAll() {
      leaving.forEach(each -> each.complete(null));
    }

    @Override
    public boolean isClosed() {
      return closed;
    }

    @Override
    public void close() {
      closed = true;
    }
  }

  private final Connection connection = new Connection();
  private final LiveReader reader = new LiveReader(connection, new SseImpl(), 0, NOW);

  private boolean turnAfter(long seconds) {
    return turnAfter(seconds, LAST);
  }

  private boolean turnAfter(long seconds, long last) {
    return reader.turn(
        (after, most) ->
            LongStream.rangeClosed(after + 1, Math.min(last, after + most))
                .mapToObj(number -> new Outbox.Numbered(number, "type", "{}"))
                .toList(),
        last,
        NOW.plusSeconds(seconds));
  }

  @Test
  void isGivenNoMoreThanAPageUntilItTookThat() {
    connection.takeAll();
    assertThat(turnAfter(1)).isTrue();
    assertThat(turnAfter(2)).isTrue();
    assertThat(connection.given).hasSize(101);
    connection.takeAll();
    assertThat(turnAfter(3)).isTrue();
    assertThat(connection.given).hasSize(201);
    assertThat(connection.given.get(200).getId()).isEqualTo("200");
  }

  @Test
  void isHungUpOnWhenItTakesNothingForHalfAMinute() {
    connection.takeAll();
    assertThat(turnAfter(1)).isTrue();
    connection.leaving.subList(0, 100).forEach(each -> each.complete(null));
    assertThat(turnAfter(31)).isTrue();
    assertThat(turnAfter(32)).isFalse();
  }

  @Test
  void hearsEvery15SecondsThatTheServiceIsStillThere() {
    connection.takeAll();
    assertThat(turnAfter(14, 0)).isTrue();
    assertThat(connection.given).hasSize(1);
    assertThat(turnAfter(15, 0)).isTrue();
    assertThat(connection.given).hasSize(2);
    assertThat(connection.given.get(1).getComment()).isEqualTo("still here");
    assertThat(connection.given.get(1).getId()).isNull();
  }

  @Test
  void isGoneWhenItHungUpOrCannotBeReached() {
    connection.leaving.get(0).completeExceptionally(new IllegalStateException("gone"));
    assertThat(turnAfter(1)).isFalse();

    Connection other = new Connection();
    LiveReader closed = new LiveReader(other, new SseImpl(), 0, NOW);
    other.takeAll();
    other.close();
    assertThat(closed.turn((after, most) -> List.of(), 0, NOW)).isFalse();
  }
}
