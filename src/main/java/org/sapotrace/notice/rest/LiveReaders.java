package org.sapotrace.notice.rest;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.enterprise.event.Shutdown;
import jakarta.enterprise.event.Startup;
import jakarta.ws.rs.sse.Sse;
import jakarta.ws.rs.sse.SseEventSink;
import java.time.InstantSource;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.notice.Feed;

/** Those who follow the feed at present, each served as fast as it reads. */
@ApplicationScoped
class LiveReaders {

  private static final System.Logger LOG = System.getLogger(LiveReaders.class.getName());
  private static final int MOST = 64;
  private static final int PAUSE_MS = 500;

  private final Feed feed;
  private final InstantSource clock;
  private final Set<LiveReader> readers = ConcurrentHashMap.newKeySet();
  private final Semaphore ending = new Semaphore(0);
  private final Thread loop = new Thread(this::run, "live feed");
  private final Thread hook = new Thread(this::end, "live feed's end");
  private volatile boolean isEnding;

  LiveReaders(Feed feed, InstantSource clock) {
    this.feed = feed;
    this.clock = clock;
    loop.setDaemon(true);
  }

  /** The service waits for requests in flight when it is told to stop, and these never end. */
  void start(@Observes Startup started) {
    loop.start();
    Runtime.getRuntime().addShutdownHook(hook);
  }

  void stop(@Observes Shutdown stopped) {
    end();
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException itRunsAlready) {
      // The process ends, and not only the service.
    }
  }

  /** Admits a reader who knows all up to a number; a 503 where there are too many. */
  void admit(SseEventSink sink, Sse sse, long number) {
    if (isEnding || readers.size() >= MOST) {
      throw Problem.of(
              ProblemType.UNAVAILABLE, "Too many follow the notices at once: try again shortly.")
          .asException();
    }
    readers.add(new LiveReader(sink, sse, number, clock.instant()));
  }

  private void run() {
    try {
      while (!ending.tryAcquire(PAUSE_MS, TimeUnit.MILLISECONDS)) {
        if (!readers.isEmpty()) {
          turn();
        }
      }
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  private void turn() {
    try {
      long last = feed.last();
      readers.removeIf(reader -> !serves(reader, last));
    } catch (RuntimeException failure) {
      // The readers stay where they are until the record can be read again.
      LOG.log(System.Logger.Level.DEBUG, "The feed cannot be read", failure);
    }
  }

  private boolean serves(LiveReader reader, long last) {
    boolean there = reader.turn(feed::after, last, clock.instant());
    if (!there) {
      reader.hangUp();
    }
    return there;
  }

  private void end() {
    isEnding = true;
    ending.release();
    readers.forEach(LiveReader::hangUp);
  }
}
