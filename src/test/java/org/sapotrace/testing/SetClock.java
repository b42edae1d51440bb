package org.sapotrace.testing;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;

/** A clock that stands still until it is set. */
public final class SetClock implements InstantSource {

  private volatile Instant now;

  public SetClock(Instant now) {
    this.now = now;
  }

  @Override
  public Instant instant() {
    return now;
  }

  public void forward(Duration by) {
    now = now.plus(by);
  }

  public void set(Instant to) {
    now = to;
  }
}
