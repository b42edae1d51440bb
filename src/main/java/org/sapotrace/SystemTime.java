package org.sapotrace;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import java.time.Clock;
import java.time.Duration;
import java.time.InstantSource;

/** The one source of time. */
@ApplicationScoped
class SystemTime {

  // The database keeps microseconds, and what is answered must be what is stored.
  private static final Duration MICROSECOND = Duration.ofNanos(1000);

  @Produces
  @ApplicationScoped
  InstantSource clock() {
    return Clock.tick(Clock.systemUTC(), MICROSECOND);
  }
}
