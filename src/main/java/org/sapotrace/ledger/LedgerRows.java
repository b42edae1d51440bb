package org.sapotrace.ledger;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;

/** What a row of the ledger's tables says. */
final class LedgerRows {

  // In the order of reading: by the heads, and what none tells of yet behind them.
  static final String TOLD =
      """
      select d.number, d.at as head_at, d.previous_hash as head_previous, d.hash as head_hash,
        h.chain as told_chain, h.first_seq, h.last_seq, h.hash as told_hash, h.line as told_line,
        e.*
      from ledger_head d
      left join ledger_head_chain h on h.number = d.number
      left join ledger_entry e on e.chain = h.chain and e.seq between h.first_seq and h.last_seq
      order by d.number, h.chain, e.seq
      """;

  static final String UNTOLD =
      """
      select e.*, f.seq is not null as fresh,
        lead(e.seq) over (partition by e.chain order by e.seq) is null as last
      from ledger_entry e
      left join (
        select h.chain, max(h.last_seq) as seq from ledger_head_chain h
        join ledger_head d on d.number = h.number group by h.chain) told
        on told.chain = e.chain
      left join ledger_fresh f on f.chain = e.chain and f.seq = e.seq
      where e.seq > coalesce(told.seq, 0)
      order by e.chain, e.seq
      """;

  private LedgerRows() {}

  static Entry entry(ResultSet row) throws SQLException {
    return new Entry(
        row.getString("chain"),
        row.getLong("seq"),
        instant(row, "at"),
        row.getString("actor"),
        row.getString("action"),
        row.getString("line"),
        row.getString("stream"),
        row.getString("subject"),
        row.getString("content"),
        row.getString("previous_hash"),
        row.getString("hash"));
  }

  static Head.Reached reached(ResultSet row) throws SQLException {
    return new Head.Reached(
        row.getString("told_chain"),
        row.getLong("first_seq"),
        row.getLong("last_seq"),
        row.getString("told_hash"),
        row.getString("told_line"));
  }

  static Instant instant(ResultSet row, String column) throws SQLException {
    return row.getObject(column, OffsetDateTime.class).toInstant();
  }
}
