package org.sapotrace.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.enterprise.event.Shutdown;
import jakarta.enterprise.event.Startup;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** Has heads made for as long as the service runs. */
@ApplicationScoped
class HeadLoop {

  private static final System.Logger LOG = System.getLogger(HeadLoop.class.getName());
  private static final int PAUSE_MS = 2000;
  private static final int PATIENCE_S = 20;

  private final HeadMaking making;
  private final CountDownLatch stopping = new CountDownLatch(1);
  private final Thread loop = new Thread(this::run, "ledger");
  private boolean failing;

  HeadLoop(HeadMaking making) {
    this.making = making;
  }

  void start(@Observes Startup started) {
    loop.setDaemon(true);
    loop.start();
  }

  void stop(@Observes Shutdown stopped) throws InterruptedException {
    stopping.countDown();
    loop.join(TimeUnit.SECONDS.toMillis(PATIENCE_S));
  }

  private void run() {
    try {
      do {
        turn();
      } while (!stopping.await(PAUSE_MS, TimeUnit.MILLISECONDS));
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  /** Complains once for all tries in which the database is away. */
  private void turn() {
    try {
      making.makeUnlessBusy();
      failing = false;
    } catch (RuntimeException failure) {
      if (!failing) {
        LOG.log(System.Logger.Level.WARNING, "The heads of the ledger wait", failure);
      }
      failing = true;
    }
  }
}
