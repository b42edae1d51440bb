package org.sapotrace.mqtt;

import io.vertx.mqtt.messages.MqttPublishMessage;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.function.BooleanSupplier;
import org.sapotrace.notice.Feed;
import org.sapotrace.notice.Outbox;

/** What the service and the broker tell each other over one connection. */
@ApplicationScoped
class Dialogue {

  private static final System.Logger LOG = System.getLogger(Dialogue.class.getName());
  private static final Duration PAUSE = Duration.ofMillis(500);

  private static final Duration RENEWED_AFTER = Tenure.LEASE.dividedBy(3);

  /** So many notices are read at once. */
  private static final int MOST = 50;

  private final Feed feed;
  private final Topics topics;
  private final Tenure tenure;
  private final Intake intake;
  private final InstantSource clock;

  Dialogue(Feed feed, Topics topics, Tenure tenure, Intake intake, InstantSource clock) {
    this.feed = feed;
    this.topics = topics;
    this.tenure = tenure;
    this.intake = intake;
    this.clock = clock;
  }

  /** Goes on until told to stop, or until another process has the lease. */
  void hold(BrokerConnection broker, Tenure.Held held, BooleanSupplier stopping) {
    subscribe(broker);
    long last = held.published();
    Instant renewal = clock.instant().plus(RENEWED_AFTER);
    while (!stopping.getAsBoolean()) {
      broker.requireOpen();
      if (clock.instant().isAfter(renewal)) {
        if (tenure.hold().isEmpty()) {
          return;
        }
        renewal = clock.instant().plus(RENEWED_AFTER);
      }
      List<Outbox.Numbered> notices = feed.after(last, MOST);
      for (Outbox.Numbered notice : notices) {
        broker.publish(topics.of(notice), notice.event());
        if (!tenure.took(notice.number())) {
          return;
        }
        last = notice.number();
      }
      take(broker, notices.isEmpty() ? PAUSE : Duration.ZERO);
    }
  }

  private void subscribe(BrokerConnection broker) {
    if (!broker.subscribe(topics.results())) {
      LOG.log(
          System.Logger.Level.WARNING,
          "The MQTT broker does not let the service subscribe to {0}, so no results come from there",
          topics.results());
    }
  }

  /** A message is the broker's until what became of it is committed and answered. */
  private void take(BrokerConnection broker, Duration patience) {
    MqttPublishMessage message = broker.next(patience);
    if (message == null) {
      return;
    }
    Topics.Place place = topics.place(message.topicName());
    if (place != null) {
      Intake.Reply reply = intake.take(place, message.payload().getBytes(), message.isRetain());
      broker.publish(topics.answer(place, reply.outcome()), reply.payload());
    }
    broker.acknowledge(message);
  }
}
