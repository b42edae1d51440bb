package org.sapotrace.http;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.persistence.Query;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import org.jspecify.annotations.Nullable;

/** The answers to parts of requests that carried a key, for a day. */
@ApplicationScoped
@Transactional(Transactional.TxType.MANDATORY)
class RememberedParts {

  /** Longer than answers are remembered, so that no repeat finds half of the parts gone. */
  private static final Duration SWEPT_AFTER = RememberedAnswers.KEPT.multipliedBy(2);

  private final EntityManager database;
  private final InstantSource clock;

  RememberedParts(EntityManager database, InstantSource clock) {
    this.database = database;
    this.clock = clock;
  }

  /**
   * A part that is not to be carried out twice.
   *
   * @param number counting from 1
   * @param fingerprint what the body was up to its end
   */
  record Part(Repeated request, int number, String fingerprint) {}

  /** A request that may be repeated. */
  record Repeated(String caller, String operation, String key) {}

  /**
   * Takes a part for this request, or tells what was answered to the request that had it first.
   * Waits while that one is carrying it out.
   *
   * @return null where this is the first; its answer is then to be remembered in this transaction
   * @throws RuntimeException that becomes a 422 where the key went with another body
   */
  @Nullable String claim(Part part) {
    Instant now = clock.instant();
    if (part.number() == 1) {
      forgetOld(part.request(), now);
    }
    int claimed =
        about(
                part,
                """
                insert into remembered_part (caller, operation, key, part, fingerprint, asked_at)
                values (:caller, :operation, :key, :part, :fingerprint, coalesce(
                  (select asked_at from remembered_part where caller = :caller
                    and operation = :operation and key = :key and part = 1), :now))
                on conflict do nothing
                """)
            .setParameter("fingerprint", part.fingerprint())
            .setParameter("now", now)
            .executeUpdate();
    return claimed == 1 ? null : answered(part);
  }

  private String answered(Part part) {
    Object[] row =
        (Object[])
            about(
                    part,
                    """
                    select fingerprint, answer from remembered_part where caller = :caller
                    and operation = :operation and key = :key and part = :part
                    """)
                .getSingleResult();
    if (!part.fingerprint().equals(row[0])) {
      throw RememberedAnswers.otherBody();
    }
    return (String) row[1];
  }

  void remember(Part part, String answer) {
    about(
            part,
            """
            update remembered_part set answer = :answer where caller = :caller
            and operation = :operation and key = :key and part = :part
            """)
        .setParameter("answer", answer)
        .executeUpdate();
  }

  private Query about(Part part, String sql) {
    return of(part.request(), sql).setParameter("part", part.number());
  }

  private Query of(Repeated request, String sql) {
    return database
        .createNativeQuery(sql)
        .setParameter("caller", request.caller())
        .setParameter("operation", request.operation())
        .setParameter("key", request.key());
  }

  /** Forgets this key if it is of yesterday, and some others long past, without waiting for any. */
  private void forgetOld(Repeated request, Instant now) {
    of(
            request,
            """
            delete from remembered_part where caller = :caller and operation = :operation
            and key = :key and asked_at < :before
            """)
        .setParameter("before", now.minus(RememberedAnswers.KEPT))
        .executeUpdate();
    database
        .createNativeQuery(
            """
            delete from remembered_part where ctid in (select ctid from remembered_part
            where asked_at < :before limit 1000 for update skip locked)
            """)
        .setParameter("before", now.minus(SWEPT_AFTER))
        .executeUpdate();
  }
}
