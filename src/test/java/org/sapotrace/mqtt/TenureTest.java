package org.sapotrace.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Duration;
import java.time.Instant;
import java.util.function.Supplier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.SetClock;

/** Two processes on one database. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class TenureTest {

  @Inject EntityManager database;

  private final SetClock clock = new SetClock(Instant.parse("2026-03-17T09:20:00Z"));
  private Tenure one;
  private Tenure other;
  private long told;

  @BeforeEach
  void begin() {
    one = new Tenure(database, clock);
    other = new Tenure(database, clock);
    run("update mqtt set holder = null, published = null");
    told = in(() -> (long) database.createNativeQuery("select last from feed").getSingleResult());
  }

  private void run(String sql) {
    QuarkusTransaction.requiringNew().run(() -> database.createNativeQuery(sql).executeUpdate());
  }

  private static <T> T in(Supplier<T> step) {
    return QuarkusTransaction.requiringNew().call(step::get);
  }

  @Test
  void beginsBehindWhatWasToldBefore() {
    assertThat(in(one::hold).orElseThrow().published()).isEqualTo(told);
  }

  @Test
  void goesOnWhereTheBrokerTookTheLast() {
    in(one::hold);
    assertThat(in(() -> one.took(told + 2))).isTrue();

    assertThat(in(one::hold).orElseThrow().published()).isEqualTo(told + 2);
  }

  @Test
  void oneHoldsItUntilItsLeaseEnds() {
    String name = in(one::hold).orElseThrow().clientId();
    clock.forward(Tenure.LEASE);
    assertThat(in(other::hold)).isEmpty();
    assertThat(in(() -> one.took(told + 1))).as("and with each notice for longer").isTrue();
    clock.forward(Tenure.LEASE);
    assertThat(in(other::hold)).isEmpty();

    clock.forward(Duration.ofSeconds(1));
    Tenure.Held held = in(other::hold).orElseThrow();
    assertThat(held.published()).isEqualTo(told + 1);
    assertThat(held.clientId()).isEqualTo(name).matches("[A-Za-z0-9]{1,23}");
    assertThat(in(() -> one.took(told + 2))).isFalse();
    assertThat(in(one::hold)).isEmpty();
  }

  @Test
  void whoGivesUpLetsTheOtherGoOnAtOnce() {
    in(one::hold);
    QuarkusTransaction.requiringNew().run(other::giveUp);
    assertThat(in(other::hold)).isEmpty();
    QuarkusTransaction.requiringNew().run(one::giveUp);
    assertThat(in(other::hold)).isPresent();
  }
}
