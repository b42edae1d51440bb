package org.sapotrace.ledger.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.Tuple;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.hibernate.Session;
import org.sapotrace.ledger.Head;
import org.sapotrace.ledger.Heads;

@ApplicationScoped
class HeadsInPostgres implements Heads {

  /** The ends of so many transactions are told of in one head at most; the rest in the next. */
  private static final int MOST = 10_000;

  private static final String LOCK = "(hashtextextended('heads of the ledger', 0))";

  // A row that is seen here is committed, and with it all that stands before it in its chain.
  private static final String REACHED =
      """
      with taken as (
        delete from ledger_fresh where (chain, seq) in (
          select chain, seq from ledger_fresh order by chain, seq limit :most)
        returning chain, seq),
      latest as (select chain, max(seq) as seq from taken group by chain)
      select e.chain, coalesce(told.last_seq, 0) + 1 as first_seq, e.seq, e.hash, e.line
      from latest
      join ledger_entry e on e.chain = latest.chain and e.seq = latest.seq
      left join lateral (
        select last_seq from ledger_head_chain
        where chain = e.chain order by last_seq desc limit 1) told on true
      where e.seq > coalesce(told.last_seq, 0)
      order by e.chain
      """;

  private final Session database;

  HeadsInPostgres(Session database) {
    this.database = database;
  }

  @Override
  public void make(Instant at) {
    if (isAnyFresh()) {
      database
          .createNativeQuery("select 1 from pg_advisory_xact_lock" + LOCK, Integer.class)
          .getSingleResult();
      makeInTurn(at);
    }
  }

  @Override
  public void makeUnlessBusy(Instant at) {
    if (isAnyFresh()
        && database
            .createNativeQuery("select pg_try_advisory_xact_lock" + LOCK, Boolean.class)
            .getSingleResult()) {
      makeInTurn(at);
    }
  }

  private boolean isAnyFresh() {
    return database
        .createNativeQuery("select exists (select from ledger_fresh)", Boolean.class)
        .getSingleResult();
  }

  private void makeInTurn(Instant at) {
    List<Head.Reached> reached =
        database
            .createNativeQuery(REACHED, Tuple.class)
            .setParameter("most", MOST)
            .getResultList()
            .stream()
            .map(HeadsInPostgres::toReached)
            .toList();
    if (!reached.isEmpty()) {
      add(behindTheLast(at.truncatedTo(ChronoUnit.MICROS), reached));
    }
  }

  private static Head.Reached toReached(Tuple row) {
    return new Head.Reached(
        row.get("chain", String.class),
        row.get("first_seq", Long.class),
        row.get("seq", Long.class),
        row.get("hash", String.class),
        row.get("line", String.class));
  }

  private Head behindTheLast(Instant at, List<Head.Reached> reached) {
    return database
        .createNativeQuery(
            "select number, hash from ledger_head order by number desc limit 1", Tuple.class)
        .getResultStream()
        .findFirst()
        .map(
            last ->
                Head.behind(
                    last.get("number", Long.class), last.get("hash", String.class), at, reached))
        .orElseGet(() -> Head.behind(0, null, at, reached));
  }

  private void add(Head head) {
    database
        .createNativeMutationQuery(
            """
            insert into ledger_head (number, at, previous_hash, hash)
            values (:number, :at, :previous, :hash)
            """)
        .setParameter("number", head.number())
        .setParameter("at", head.at())
        .setParameter("previous", head.previousHash())
        .setParameter("hash", head.hash())
        .executeUpdate();
    for (Head.Reached reached : head.chains()) {
      database
          .createNativeMutationQuery(
              """
              insert into ledger_head_chain (number, chain, first_seq, last_seq, hash, line)
              values (:number, :chain, :first, :last, :hash, :line)
              """)
          .setParameter("number", head.number())
          .setParameter("chain", reached.chain())
          .setParameter("first", reached.first())
          .setParameter("last", reached.last())
          .setParameter("hash", reached.hash())
          .setParameter("line", reached.line(), String.class)
          .executeUpdate();
    }
  }
}
