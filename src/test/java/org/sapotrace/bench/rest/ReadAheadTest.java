package org.sapotrace.bench.rest;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.EOFException;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

class ReadAheadTest {

  @Test
  @Timeout(30)
  void readsWhileSomethingElseIsDone() throws Exception {
    CountDownLatch isDone = new CountDownLatch(1);
    try (ReadAhead<Thread> ahead = new ReadAhead<>()) {
      ahead.begin(
          () -> {
            isDone.await();
            return Thread.currentThread();
          });
      isDone.countDown();

      assertThat(ahead.finish()).isNotEqualTo(Thread.currentThread());
    }
  }

  @Test
  void throwsWhatReadingThrew() {
    try (ReadAhead<Integer> ahead = new ReadAhead<>()) {
      ahead.begin(
          () -> {
            throw new EOFException("the body broke off");
          });
      assertThatThrownBy(ahead::finish)
          .isInstanceOf(EOFException.class)
          .hasMessage("the body broke off");

      ahead.begin(() -> Integer.valueOf("one"));
      assertThatThrownBy(ahead::finish).isInstanceOf(NumberFormatException.class);
    }
  }

  @Test
  void holdsOneThingAtMost() throws IOException {
    try (ReadAhead<Integer> ahead = new ReadAhead<>()) {
      ahead.begin(() -> 1);
      assertThatThrownBy(() -> ahead.begin(() -> 2)).isInstanceOf(IllegalStateException.class);
      assertThat(ahead.finish()).isEqualTo(1);
      assertThatThrownBy(ahead::finish).isInstanceOf(IllegalStateException.class);
    }
  }

  /** As where recording fails, and whoever sends the body takes a long time over the rest. */
  @Test
  @Timeout(20)
  void givesUpWhatIsBeingReadWhenItIsClosed() throws InterruptedException {
    CountDownLatch isReading = new CountDownLatch(1);
    AtomicBoolean isOver = new AtomicBoolean();
    try (ReadAhead<Integer> ahead = new ReadAhead<>()) {
      ahead.begin(
          () -> {
            isReading.countDown();
            try {
              Thread.sleep(Duration.ofMinutes(5).toMillis());
              return 1;
            } catch (InterruptedException givenUp) {
              isOver.set(true);
              throw new InterruptedIOException();
            }
          });
      isReading.await();
    }
    assertThat(isOver).isTrue();
  }
}
