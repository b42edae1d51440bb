package org.sapotrace.notice;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.enterprise.event.Shutdown;
import jakarta.enterprise.event.Startup;
import java.time.InstantSource;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.sapotrace.webhook.Sender;

/** Has notices carried to the subscribers for as long as the service runs. */
@ApplicationScoped
class RelayLoop {

  private static final System.Logger LOG = System.getLogger(RelayLoop.class.getName());
  private static final int THREADS = 16;
  private static final int PAUSE_MS = 500;
  private static final int PATIENCE_S = 20;

  private final NoticeSettings settings;
  private final Despatch despatch;
  private final InstantSource clock;
  private final Relay relay;
  private final Semaphore news = new Semaphore(0);
  private final ExecutorService senders = Executors.newFixedThreadPool(THREADS, RelayLoop::thread);
  private final Thread loop = thread(this::run);
  private volatile boolean stopping;
  private boolean failing;

  RelayLoop(
      NoticeSettings settings,
      Despatch despatch,
      Subscriptions subscriptions,
      Sender sender,
      InstantSource clock) {
    this.settings = settings;
    this.despatch = despatch;
    this.clock = clock;
    this.relay = new Relay(despatch, subscriptions, sender, clock, senders, news::release);
  }

  private static Thread thread(Runnable work) {
    Thread thread = new Thread(work, "notices");
    thread.setDaemon(true);
    return thread;
  }

  void start(@Observes Startup started) {
    if (settings.relays()) {
      loop.start();
    }
  }

  /** Lets what is on its way arrive; what was taken besides is taken up by the next process. */
  void stop(@Observes Shutdown stopped) throws InterruptedException {
    stopping = true;
    news.release();
    loop.join(TimeUnit.SECONDS.toMillis(PATIENCE_S));
    senders.shutdown();
    if (!senders.awaitTermination(PATIENCE_S, TimeUnit.SECONDS)) {
      senders.shutdownNow();
    }
  }

  private void run() {
    boolean woken = false;
    while (!stopping) {
      boolean any = false;
      try {
        if (!woken) {
          despatch.wake(null, clock.instant());
          woken = true;
        }
        any = relay.turn();
        failing = false;
      } catch (RuntimeException failure) {
        report(failure);
      }
      if (!any) {
        await();
      }
    }
  }

  /** Once for all tries in which the database is away. */
  private void report(RuntimeException failure) {
    if (!failing) {
      LOG.log(System.Logger.Level.WARNING, "Notices wait, as the record cannot be read", failure);
    }
    failing = true;
  }

  private void await() {
    try {
      if (news.tryAcquire(PAUSE_MS, TimeUnit.MILLISECONDS)) {
        news.drainPermits();
      }
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      stopping = true;
    }
  }
}
