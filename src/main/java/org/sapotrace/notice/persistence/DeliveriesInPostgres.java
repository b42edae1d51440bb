package org.sapotrace.notice.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.Tuple;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.Session;
import org.hibernate.query.MutationQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.notice.Deliveries;
import org.sapotrace.notice.Delivery;

/*
 * Of rows that somebody else has locked none is waited for: they are being tried or settled, and
 * the next look finds them as they are then. So no two of these statements can wait for each other.
 */
@ApplicationScoped
class DeliveriesInPostgres implements Deliveries {

  private static final UUID BEFORE_ALL = new UUID(0, 0);
  private static final int TOO_BUSY = 429;

  private final Session database;

  DeliveriesInPostgres(Session database) {
    this.database = database;
  }

  @Override
  public List<String> due(Instant now) {
    return database
        .createNativeQuery(
            """
            select slug from subscription s where active and exists (select 1 from delivery d
              where d.subscription = s.slug and d.state = 'waiting' and d.next_try_at <= :now)
            order by slug
            """,
            String.class)
        .setParameter("now", now)
        .getResultList();
  }

  @Override
  public List<Claim> claim(String subscription, Instant now, Duration lease, int most) {
    List<Tuple> claimed =
        database
            .createNativeQuery(
                """
                with due as materialized (
                  select stream_id, subscription, notice_id from delivery d
                  where d.subscription = :subscription and d.state = 'waiting'
                    and d.next_try_at <= :now
                    and (d.leased_until is null or d.leased_until <= :now)
                    and not exists (select 1 from delivery before
                      where before.stream_id = d.stream_id
                        and before.subscription = d.subscription
                        and before.state = 'waiting' and before.notice_id < d.notice_id)
                  order by d.next_try_at, d.notice_id limit :most for update of d skip locked),
                claimed as (
                  update delivery d set attempts = d.attempts + 1,
                    first_tried_at = coalesce(d.first_tried_at, :now), last_tried_at = :now,
                    leased_until = :until
                  from due
                  where d.stream_id = due.stream_id and d.subscription = due.subscription
                    and d.notice_id = due.notice_id
                  returning d.*)
                select c.stream_id, c.notice_id, c.attempts, c.first_tried_at, n.event
                from claimed c join notice n on n.stream_id = c.stream_id and n.id = c.notice_id
                order by c.notice_id
                """,
                Tuple.class)
            .setParameter("subscription", subscription)
            .setParameter("now", now)
            .setParameter("until", now.plus(lease))
            .setParameter("most", most)
            .getResultList();
    return claimed.stream()
        .map(
            row ->
                new Claim(
                    new Key(
                        row.get("stream_id", UUID.class),
                        subscription,
                        row.get("notice_id", UUID.class)),
                    row.get("attempts", Integer.class),
                    row.get("first_tried_at", Instant.class),
                    row.get("event", String.class)))
        .toList();
  }

  @Override
  public void delivered(Claim claim, int status, Instant now) {
    update(
            claim.key(),
            """
            state = 'delivered', delivered_at = :now, last_status = :status,
            last_problem = null, next_try_at = null, leased_until = null
            """,
            "true")
        .setParameter("now", now)
        .setParameter("status", status)
        .executeUpdate();
  }

  @Override
  public void failed(
      Claim claim, @Nullable Integer status, String problem, @Nullable Instant next) {
    update(
            claim.key(),
            """
            state = :state, last_status = cast(:status as integer), last_problem = :problem,
            next_try_at = cast(:next as timestamptz), leased_until = null
            """,
            "state = 'waiting' and attempts = :attempt")
        .setParameter("state", next == null ? "parked" : "waiting")
        .setParameter("status", status, Integer.class)
        .setParameter("problem", problem)
        .setParameter("next", next, Instant.class)
        .setParameter("attempt", claim.attempt())
        .executeUpdate();
  }

  private MutationQuery update(Key key, String changes, String condition) {
    return database
        .createNativeMutationQuery(
            """
            update delivery set %s where stream_id = :stream and subscription = :subscription
              and notice_id = :notice and %s
            """
                .formatted(changes, condition))
        .setParameter("stream", key.stream())
        .setParameter("subscription", key.subscription())
        .setParameter("notice", key.notice());
  }

  @Override
  public void wake(@Nullable String subscription, Instant now) {
    database
        .createNativeMutationQuery(
            """
            with sleeping as materialized (
              select stream_id, subscription, notice_id from delivery
              where state = 'waiting' and next_try_at > :now
                and (cast(:subscription as text) is null or subscription = :subscription)
                and coalesce(last_status, 0) <> :busy
              for update skip locked)
            update delivery d set next_try_at = :now from sleeping s
            where d.stream_id = s.stream_id and d.subscription = s.subscription
              and d.notice_id = s.notice_id
            """)
        .setParameter("now", now)
        .setParameter("subscription", subscription, String.class)
        .setParameter("busy", TOO_BUSY)
        .executeUpdate();
  }

  @Override
  public void resend(String subscription, UUID notice, Instant now) {
    database
        .createNativeMutationQuery(
            """
            update delivery set state = 'waiting', attempts = 0, first_tried_at = null,
              next_try_at = :now, leased_until = null, delivered_at = null
            where subscription = :subscription and notice_id = :notice
            """)
        .setParameter("now", now)
        .setParameter("subscription", subscription)
        .setParameter("notice", notice)
        .executeUpdate();
    // What was read before in this transaction is read anew.
    database.clear();
  }

  @Override
  public Optional<Delivery> delivery(String subscription, UUID notice) {
    return find("d.key.noticeId = ?2", subscription, notice, 1).stream().findFirst();
  }

  @Override
  public List<Delivery> of(
      String subscription, Delivery.@Nullable State state, @Nullable UUID after, int most) {
    String condition = "d.key.noticeId > ?2";
    return find(
        state == null ? condition : condition + " and d.state = '%s'".formatted(state.id()),
        subscription,
        after == null ? BEFORE_ALL : after,
        most);
  }

  private List<Delivery> find(String condition, String subscription, UUID notice, int most) {
    return database
        .createQuery(
            """
            select d, n from DeliveryEntity d join NoticeEntity n
              on n.key.streamId = d.key.streamId and n.key.id = d.key.noticeId
            where d.key.subscription = ?1 and %s order by d.key.noticeId
            """
                .formatted(condition),
            Object[].class)
        .setParameter(1, subscription)
        .setParameter(2, notice)
        .setMaxResults(most)
        .getResultList()
        .stream()
        .map(pair -> ((DeliveryEntity) pair[0]).toDelivery((NoticeEntity) pair[1]))
        .toList();
  }
}
