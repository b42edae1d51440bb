package org.sapotrace.mqtt;

import io.vertx.core.Vertx;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.enterprise.event.Shutdown;
import jakarta.enterprise.event.Startup;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.sapotrace.mqtt.MqttSettings.Broker;

/** Keeps a connection to the broker for as long as the service runs, where one is configured. */
@ApplicationScoped
class BrokerLoop {

  private static final System.Logger LOG = System.getLogger(BrokerLoop.class.getName());
  private static final Duration SHORTEST_PAUSE = Duration.ofSeconds(1);
  private static final Duration LONGEST_PAUSE = Duration.ofSeconds(30);

  /** How often is looked whether the process that speaks with the broker still does. */
  private static final Duration STANDING_BY = Duration.ofSeconds(5);

  private static final int PATIENCE_S = 20;

  private final MqttSettings settings;
  private final Vertx vertx;
  private final Tenure tenure;
  private final Dialogue dialogue;
  private final InstantSource clock;
  private final Semaphore stop = new Semaphore(0);
  private @Nullable Thread loop;
  private volatile boolean stopping;
  private boolean failing;
  private Duration pause = SHORTEST_PAUSE;

  BrokerLoop(
      MqttSettings settings, Vertx vertx, Tenure tenure, Dialogue dialogue, InstantSource clock) {
    this.settings = settings;
    this.vertx = vertx;
    this.tenure = tenure;
    this.dialogue = dialogue;
    this.clock = clock;
  }

  void start(@Observes Startup started) {
    Broker broker = settings.broker();
    if (broker != null) {
      loop = new Thread(() -> run(broker), "mqtt");
      loop.setDaemon(true);
      loop.start();
    }
  }

  void stop(@Observes Shutdown stopped) throws InterruptedException {
    stopping = true;
    stop.release();
    if (loop != null) {
      loop.join(TimeUnit.SECONDS.toMillis(PATIENCE_S));
    }
  }

  private void run(Broker broker) {
    while (!stopping) {
      Instant began = clock.instant();
      try {
        tenure.hold().ifPresentOrElse(held -> converse(broker, held), () -> rest(STANDING_BY));
      } catch (BrokerFailure failure) {
        String reason = "The MQTT broker at %s is away, and notices wait: %s";
        failed(began, reason.formatted(broker, failure.getMessage()), null);
      } catch (RuntimeException failure) {
        failed(began, "MQTT waits, as the record cannot be reached", failure);
      }
    }
  }

  private void converse(Broker broker, Tenure.Held held) {
    try (BrokerConnection connection = BrokerConnection.open(vertx, broker, held.clientId())) {
      dialogue.hold(connection, held, () -> stopping);
    } finally {
      giveUp();
    }
  }

  private void giveUp() {
    try {
      tenure.giveUp();
    } catch (RuntimeException recordIsAway) {
      LOG.log(System.Logger.Level.DEBUG, "The lease ends by itself", recordIsAway);
    }
  }

  /** Says so once, until a connection has stood for a while, and waits longer each time. */
  private void failed(Instant began, String what, @Nullable RuntimeException why) {
    if (Duration.between(began, clock.instant()).compareTo(LONGEST_PAUSE) > 0) {
      failing = false;
      pause = SHORTEST_PAUSE;
    }
    if (!failing) {
      LOG.log(System.Logger.Level.WARNING, what, why);
    }
    failing = true;
    rest(pause);
    Duration doubled = pause.multipliedBy(2);
    pause = doubled.compareTo(LONGEST_PAUSE) < 0 ? doubled : LONGEST_PAUSE;
  }

  private void rest(Duration time) {
    try {
      stopping |= stop.tryAcquire(time.toMillis(), TimeUnit.MILLISECONDS);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      stopping = true;
    }
  }
}
