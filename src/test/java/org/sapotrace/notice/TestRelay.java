package org.sapotrace.notice;

import io.quarkus.arc.Arc;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.concurrent.Executor;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.MeasuredElsewhere;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.webhook.Sender;

/** Has the notices of a test carried when the test says so. */
public final class TestRelay {

  private TestRelay() {}

  /** Numbers all that is recorded, and makes the deliveries. */
  public static void number() {
    while (bean(Despatch.class).number() > 0) {
      // There may be more than are numbered at once.
    }
  }

  /** A relay by that clock, which sends in the caller's thread. */
  static Relay by(InstantSource clock) {
    return by(clock, Runnable::run);
  }

  static Relay by(InstantSource clock, Executor executor) {
    return new Relay(
        bean(Despatch.class),
        bean(Subscriptions.class),
        bean(Sender.class),
        clock,
        executor,
        () -> {});
  }

  /** Records a result of a stream of soap that does not conform, in the caller's transaction. */
  static void recordNonconforming(TestStream stream) {
    bean(Bench.class)
        .record(
            stream.line,
            stream.path.substring(stream.path.lastIndexOf('/') + 1),
            new MeasuredElsewhere(
                "B", Instant.parse("2026-01-05T06:00:00Z"), List.of(90.0), null, null, null));
  }

  static <T> T bean(Class<T> type) {
    return Arc.container().instance(type).get();
  }
}
