package org.sapotrace.notice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Receiver;
import org.sapotrace.testing.SetClock;
import org.sapotrace.webhook.Secret;

/** How notices come to subscribers, by a clock that is set by hand. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class RelayTest {

  private final SetClock clock = new SetClock(micros(Instant.now()));
  private final Receiver receiver = new Receiver();
  private final Relay relay = TestRelay.by(clock);
  private TestStream stream;
  private Subscriber subscriber;

  @Inject EntityManager database;

  /** What other tests subscribed to is not carried here. */
  @BeforeEach
  void subscribe() {
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                database
                    .createNativeQuery("update subscription set active = false")
                    .executeUpdate());
    stream = TestStream.soap();
    subscriber = new Subscriber(receiver, stream.line);
  }

  @AfterEach
  void hangUp() {
    receiver.close();
  }

  /** Makes a notice, and due by the clock of this test. */
  private void happens() {
    stream.record(90);
    TestRelay.number();
    clock.set(max(clock.instant(), micros(Instant.now())).plusMillis(1));
  }

  /** As the service's own clock ticks, and as the database keeps time: it would round the rest. */
  private static Instant micros(Instant time) {
    return time.truncatedTo(ChronoUnit.MICROS);
  }

  private static Instant max(Instant one, Instant other) {
    return one.isBefore(other) ? other : one;
  }

  private void turnUntilIdle() {
    // Each turn takes the first of each stream.
    for (int turns = 0; relay.turn(); turns++) {
      assertThat(turns).as("turns").isLessThan(1_000);
    }
  }

  private JsonNode delivery(int index) {
    return subscriber.deliveries().get(index);
  }

  @Test
  void carriesTheSameEventThatTheRecordShows() {
    happens();
    turnUntilIdle();

    JsonNode delivery = delivery(0);
    assertThat(delivery.get("state").asText()).isEqualTo("delivered");
    assertThat(delivery.get("attempts").asInt()).isEqualTo(1);
    assertThat(delivery.get("lastStatus").asInt()).isEqualTo(204);
    assertThat(delivery.get("deliveredAt").isNull()).isFalse();
    assertThat(delivery.get("nextTryAt").isNull()).isTrue();
    Receiver.Got got = receiver.all().get(0);
    assertThat(got.body()).isEqualTo(delivery.get("event").toString());
    assertThat(got.header("webhook-id")).isEqualTo(delivery.get("id").asText());
  }

  @Test
  void carriesTheNoticesOfAStreamInOrderWhateverHappens() {
    happens();
    happens();
    happens();
    receiver.answer(500);
    turnUntilIdle();
    assertThat(receiver.ids()).containsExactly(delivery(0).get("id").asText());
    assertThat(subscriber.deliveries("attempts")).containsExactly("1", "0", "0");

    receiver.answer(204);
    clock.forward(Duration.ofSeconds(1));
    receiver.forget();
    turnUntilIdle();
    assertThat(receiver.ids()).isEqualTo(subscriber.deliveries("id"));
  }

  @Test
  void triesAgainByThePlanWithTheSameIdentifierAndANewTimestamp() {
    happens();
    receiver.answer(500);
    turnUntilIdle();
    assertThat(delivery(0).get("lastProblem").asText()).isEqualTo("The receiver answered 500.");
    for (int pause : List.of(1, 2, 4, 8, 15, 30, 30)) {
      clock.forward(Duration.ofSeconds(pause).minusMillis(1));
      turnUntilIdle();
      int before = receiver.all().size();
      clock.forward(Duration.ofMillis(1));
      turnUntilIdle();
      assertThat(receiver.all()).as("after %d s", pause).hasSize(before + 1);
    }
    assertThat(receiver.ids()).containsOnly(delivery(0).get("id").asText());
    assertThat(receiver.all())
        .extracting(got -> got.header("webhook-timestamp"))
        .doesNotHaveDuplicates();
  }

  @Test
  void parksAfterThreeDaysAndGoesOnWithTheNext() {
    happens();
    happens();
    receiver.answer(500);
    turnUntilIdle();
    clock.forward(Duration.ofDays(3));
    turnUntilIdle();
    assertThat(subscriber.deliveries("state")).containsExactly("parked", "waiting");
    assertThat(delivery(0).get("nextTryAt").isNull()).isTrue();
    assertThat(json(200, get(subscriber.path + "/deliveries?state=parked")).get("items"))
        .hasSize(1);

    receiver.answer(204);
    receiver.forget();
    clock.forward(Duration.ofSeconds(1));
    turnUntilIdle();
    assertThat(receiver.ids()).containsExactly(delivery(1).get("id").asText());
  }

  @Test
  void sendsAgainWhatSomebodyAsksFor() {
    happens();
    receiver.answer(500);
    turnUntilIdle();
    clock.forward(Duration.ofDays(3));
    turnUntilIdle();
    receiver.answer(204);
    receiver.forget();
    String id = delivery(0).get("id").asText();

    JsonNode again = json(200, post(subscriber.path + "/deliveries/%s/resend".formatted(id), ""));
    assertThat(again.get("state").asText()).isEqualTo("waiting");
    assertThat(again.get("attempts").asInt()).isZero();
    turnUntilIdle();
    assertThat(receiver.ids()).containsExactly(id);
    assertThat(delivery(0).get("state").asText()).isEqualTo("delivered");
  }

  @Test
  void makesAllThatWaitsDueOnceTheReceiverTookSomething() {
    TestStream other = TestStream.soap();
    json(
        200,
        put(
            subscriber.path,
            subscriber.wants(receiver.url(), "").replace("[\"", "[\"" + other.line + "\", \"")));
    happens();
    receiver.answer(500);
    turnUntilIdle();
    for (int i = 0; i < 40; i++) {
      clock.forward(Duration.ofSeconds(30));
      turnUntilIdle();
    }
    assertThat(Instant.parse(delivery(0).get("nextTryAt").asText()))
        .isAfter(clock.instant().plusSeconds(60));
    receiver.answer(204);
    receiver.forget();
    other.record(90);
    TestRelay.number();
    turnUntilIdle();
    assertThat(receiver.all()).hasSize(2);
    assertThat(subscriber.deliveries("state")).containsOnly("delivered");
  }

  @Test
  void makesAllThatWaitsDueAtItsStart() {
    happens();
    receiver.answer(500);
    for (int i = 0; i < 40; i++) {
      turnUntilIdle();
      clock.forward(Duration.ofSeconds(30));
    }
    receiver.answer(204);
    receiver.forget();
    turnUntilIdle();
    assertThat(receiver.all()).isEmpty();
    TestRelay.bean(Despatch.class).wake(null, clock.instant());
    turnUntilIdle();
    assertThat(receiver.all()).hasSize(1);
  }

  @Test
  void leavesABusyReceiverAloneForAsLongAsItWants() {
    happens();
    receiver.behave(
        (got, answer) -> {
          answer.set("Retry-After", "600");
          return 429;
        });
    turnUntilIdle();
    receiver.answer(204);
    TestRelay.bean(Despatch.class).wake(null, clock.instant());
    clock.forward(Duration.ofSeconds(599));
    turnUntilIdle();
    assertThat(receiver.all()).hasSize(1);
    clock.forward(Duration.ofSeconds(1));
    turnUntilIdle();
    assertThat(receiver.all()).hasSize(2);
  }

  @Test
  void switchesOffWhoWantsNoMoreAndGoesOnWhenSwitchedOnAgain() {
    happens();
    receiver.answer(410);
    turnUntilIdle();
    JsonNode gone = json(200, get(subscriber.path));
    assertThat(gone.get("active").asBoolean()).isFalse();
    assertThat(gone.at("/disabled/reason").asText()).isEqualTo("The receiver answered 410.");
    happens();
    clock.forward(Duration.ofDays(1));
    turnUntilIdle();
    assertThat(receiver.all()).hasSize(1);
    assertThat(subscriber.deliveries("state")).containsExactly("waiting");
    json(
        409,
        post(
            subscriber.path + "/deliveries/%s/resend".formatted(delivery(0).get("id").asText()),
            ""));

    receiver.answer(204);
    JsonNode again = json(200, put(subscriber.path, subscriber.wants(receiver.url(), "")));
    assertThat(again.get("disabled").isNull()).isTrue();
    turnUntilIdle();
    assertThat(subscriber.deliveries("state")).containsExactly("delivered");
  }

  @Test
  void signsByTheFormerSecretForADayAfterTheChange() {
    String first = Secret.random().text();
    String second = Secret.random().text();
    json(200, put(subscriber.path, withSecret(first)));
    json(200, put(subscriber.path, withSecret(second)));
    happens();
    turnUntilIdle();
    assertSigned(receiver.all().get(0), second, first);

    clock.forward(Duration.ofHours(24));
    happens();
    turnUntilIdle();
    assertSigned(receiver.all().get(1), second);
  }

  private String withSecret(String secret) {
    return subscriber.wants(receiver.url(), ", \"secret\": \"%s\"".formatted(secret));
  }

  private static void assertSigned(Receiver.Got got, String... secrets) {
    List<String> expected = new ArrayList<>();
    for (String secret : secrets) {
      expected.add(
          Secret.parse(secret)
              .sign(
                  got.header("webhook-id"),
                  Instant.ofEpochSecond(Long.parseLong(got.header("webhook-timestamp"))),
                  got.body()));
    }
    assertThat(got.header("webhook-signature")).isEqualTo(String.join(" ", expected));
  }

  @Test
  void takesUpWhatADeadProcessHadTaken() {
    happens();
    List<Deliveries.Claim> taken =
        TestRelay.bean(Despatch.class)
            .claim(subscriber.path.substring("/subscriptions/".length()), clock.instant(), 4);
    assertThat(taken).hasSize(1);
    turnUntilIdle();
    assertThat(receiver.all()).isEmpty();
    clock.forward(Despatch.LEASE);
    turnUntilIdle();
    assertThat(receiver.all()).hasSize(1);
  }

  @Test
  void keepsWhyAReceiverCouldNotBeReached() {
    happens();
    receiver.close();
    turnUntilIdle();
    assertThat(delivery(0).get("lastStatus").isNull()).isTrue();
    assertThat(delivery(0).get("lastProblem").asText())
        .isEqualTo("The receiver could not be reached.");
  }

  @Test
  void doesNotWaitForASlowReceiverWithTheNoticesOfOthers() throws Exception {
    CountDownLatch released = new CountDownLatch(1);
    ExecutorService threads = Executors.newFixedThreadPool(8);
    Relay working = TestRelay.by(clock, threads);
    try (Receiver slow = new Receiver()) {
      slow.behave(
          (got, answer) -> {
            try {
              released.await(10, TimeUnit.SECONDS);
            } catch (InterruptedException interrupted) {
              Thread.currentThread().interrupt();
            }
            return 204;
          });
      Subscriber waiting = new Subscriber(slow, stream.line);
      happens();
      working.turn();
      await().until(() -> receiver.all().size() == 1 && slow.all().size() == 1);
      assertThat(waiting.deliveries("state")).containsExactly("waiting");
      released.countDown();
      await().until(() -> waiting.deliveries("state").equals(List.of("delivered")));
    } finally {
      threads.shutdownNow();
    }
  }

  /** Ten streams, two relays that do not know of each other, a receiver that fails every third. */
  @Test
  void loseAndReorderNothingWhenTwoWorkAtOnce() throws Exception {
    List<TestStream> streams = new ArrayList<>(List.of(stream));
    for (int i = 0; i < 9; i++) {
      streams.add(TestStream.soap());
    }
    String lines = String.join("\", \"", streams.stream().map(each -> each.line).toList());
    json(
        200,
        put(subscriber.path, subscriber.wants(receiver.url(), "").replace(stream.line, lines)));
    List<Integer> answered = new ArrayList<>();
    receiver.behave(
        (got, answer) -> {
          synchronized (answered) {
            answered.add(answered.size() % 3 == 0 ? 500 : 204);
            return answered.get(answered.size() - 1);
          }
        });
    AtomicBoolean done = new AtomicBoolean();
    ExecutorService threads = Executors.newFixedThreadPool(10);
    try {
      for (int i = 0; i < 2; i++) {
        Relay one = TestRelay.by(() -> micros(Instant.now()), threads);
        threads.execute(
            () -> {
              while (!done.get()) {
                one.turn();
              }
            });
      }
      for (int i = 0; i < 5; i++) {
        streams.forEach(each -> each.record(90));
      }
      await()
          .atMost(Duration.ofSeconds(60))
          .until(
              () ->
                  subscriber.deliveries("state").stream().filter("delivered"::equals).count()
                      == 50);
    } finally {
      done.set(true);
      threads.shutdown();
      assertThat(threads.awaitTermination(20, TimeUnit.SECONDS)).isTrue();
    }
    assertInOrder();
    // Nothing was sent twice that had been taken: 50 messages were, and a third as many failed.
    assertThat(answered.stream().filter(status -> status == 204)).hasSize(50);
  }

  private void assertInOrder() {
    List<String> seen = new ArrayList<>();
    HashSet<String> known = new HashSet<>();
    for (Receiver.Got got : receiver.all()) {
      String source = got.body().replaceAll(".*\"source\":\"([^\"]*)\".*", "$1");
      if (known.add(got.header("webhook-id"))) {
        seen.add(source + " " + got.header("webhook-id"));
      }
    }
    assertThat(seen).hasSize(50);
    for (String source : seen.stream().map(each -> each.split(" ")[0]).distinct().toList()) {
      assertThat(seen.stream().filter(each -> each.startsWith(source + " "))).hasSize(5).isSorted();
    }
  }
}
