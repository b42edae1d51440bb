package org.sapotrace.mqtt;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/*
 * Of several processes on one database the one that holds the lease speaks with the broker. Should
 * another one take it over early, nothing is lost: the broker itself ends the connection of who came
 * first with the same client identifier, and the cursor moves only for the holder.
 */
/** Which process speaks with the broker, and which notice the broker took last. */
@ApplicationScoped
@Transactional
class Tenure {

  static final Duration LEASE = Duration.ofSeconds(30);

  /**
   * What the holder goes on with.
   *
   * @param clientId the same for every process on this database, for ever
   * @param published the number of the last notice that the broker took
   */
  record Held(String clientId, long published) {}

  private final EntityManager database;
  private final InstantSource clock;
  private final String me = UUID.randomUUID().toString();

  Tenure(EntityManager database, InstantSource clock) {
    this.database = database;
    this.clock = clock;
  }

  /**
   * Takes the lease, or holds it for longer. What was told before a broker was configured for the
   * first time is not published: nobody can act on it any more.
   *
   * @return empty where another process has it
   */
  Optional<Held> hold() {
    List<?> rows =
        database
            .createNativeQuery(
                """
                update mqtt set holder = :me, leased_until = cast(:until as timestamptz),
                  published = coalesce(published, (select last from feed))
                where holder is null or holder = :me or leased_until < cast(:now as timestamptz)
                returning client_id, published
                """)
            .setParameter("me", me)
            .setParameter("now", clock.instant())
            .setParameter("until", clock.instant().plus(LEASE))
            .getResultList();
    return rows.stream()
        .map(Object[].class::cast)
        .map(row -> new Held((String) row[0], (long) row[1]))
        .findFirst();
  }

  /**
   * Keeps that the broker took a notice, and holds the lease for longer.
   *
   * @return whether this process still has it
   */
  boolean took(long number) {
    return database
            .createNativeQuery(
                """
                update mqtt set published = :number, leased_until = cast(:until as timestamptz)
                where holder = :me
                """)
            .setParameter("me", me)
            .setParameter("number", number)
            .setParameter("until", clock.instant().plus(LEASE))
            .executeUpdate()
        == 1;
  }

  /** Lets another process have the lease. */
  void giveUp() {
    database
        .createNativeQuery("update mqtt set holder = null, leased_until = null where holder = :me")
        .setParameter("me", me)
        .executeUpdate();
  }
}
