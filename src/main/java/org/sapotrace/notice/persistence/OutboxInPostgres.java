package org.sapotrace.notice.persistence;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import org.hibernate.Session;
import org.sapotrace.notice.Notice;
import org.sapotrace.notice.NoticeType;
import org.sapotrace.notice.Outbox;

@ApplicationScoped
class OutboxInPostgres implements Outbox, PanacheRepositoryBase<NoticeEntity, NoticeEntity.Key> {

  /** So many are numbered in one transaction at most. */
  private static final int MOST = 500;

  private final Session database;
  private final ObjectMapper json;
  private final InstantSource clock;

  OutboxInPostgres(Session database, ObjectMapper json, InstantSource clock) {
    this.database = database;
    this.json = json;
    this.clock = clock;
  }

  @Override
  public void add(Notice notice) {
    try {
      persist(NoticeEntity.of(notice, json.writeValueAsString(CloudEvent.of(notice))));
    } catch (JsonProcessingException neverOfRecords) {
      throw new IllegalStateException(neverOfRecords);
    }
  }

  @Override
  public boolean isTold(UUID stream, NoticeType type, UUID about) {
    return count("key.streamId = ?1 and type = ?2 and about = ?3", stream, type.id(), about) > 0;
  }

  @Override
  public int number() {
    if (count("number is null") == 0) {
      return 0;
    }
    // The row's lock keeps others from numbering; what they committed is seen by what follows.
    database.createNativeQuery("select last from feed for update", Long.class).getSingleResult();
    int numbered =
        database
            .createNativeMutationQuery(
                """
                update notice n set number = feed.last + fresh.place
                from feed, (select stream_id, id, row_number() over (order by id) as place
                  from (select stream_id, id from notice where number is null
                    order by id limit :most) unnumbered) fresh
                where n.stream_id = fresh.stream_id and n.id = fresh.id
                """)
            .setParameter("most", MOST)
            .executeUpdate();
    deliver();
    database
        .createNativeMutationQuery("update feed set last = last + :numbered")
        .setParameter("numbered", numbered)
        .executeUpdate();
    return numbered;
  }

  /** A notice of no line concerns all lines. */
  private void deliver() {
    database
        .createNativeMutationQuery(
            """
            insert into delivery
              (stream_id, subscription, notice_id, state, attempts, next_try_at)
            select n.stream_id, s.slug, n.id, 'waiting', 0, cast(:now as timestamptz)
            from notice n join feed on n.number > feed.last cross join subscription s
            where s.active
              and (s.lines is null or n.line is null or n.line = any (s.lines))
              and (s.types is null or n.type = any (s.types))
            """)
        .setParameter("now", clock.instant())
        .executeUpdate();
  }

  @Override
  public long last() {
    return database.createNativeQuery("select last from feed", Long.class).getResultList().get(0);
  }

  @Override
  public List<Numbered> after(long exclusive, int most) {
    return find("number > ?1", Sort.by("number"), exclusive).page(0, most).stream()
        .map(NoticeEntity::toNumbered)
        .toList();
  }
}
