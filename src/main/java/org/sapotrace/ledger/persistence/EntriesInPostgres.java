package org.sapotrace.ledger.persistence;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.PersistenceException;
import jakarta.persistence.Tuple;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import javax.sql.DataSource;
import org.hibernate.Session;
import org.hibernate.query.NativeQuery;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.CanonicalJson;
import org.sapotrace.ledger.Deed;
import org.sapotrace.ledger.Entries;
import org.sapotrace.ledger.Entry;

@ApplicationScoped
class EntriesInPostgres implements Entries {

  // Each chain's last entry is one look into the index.
  private static final String ENDS =
      """
      select c.chain, e.seq, e.hash from unnest(?) as c (chain)
      cross join lateral (
        select seq, hash from ledger_entry where chain = c.chain collate "C"
        order by seq desc limit 1) e
      """;

  private static final String PAGE =
      """
      select h.number, e.* from ledger_head_chain h
      join ledger_entry e on e.chain = h.chain and e.seq between h.first_seq and h.last_seq
      where (h.number, h.chain) >= (:number, cast(:chain as text) collate "C")
        and e.seq > case when h.number = :number and h.chain = :chain then :seq else 0 end
        %s
      order by h.number, h.chain, e.seq
      """;

  // In the words of the index ledger_entry_of_changes, by which they are found.
  private static final String CHANGES =
      """
      select action, subject, actor from ledger_entry
      where chain = cast(:chain as text) collate "C"
        and action in ('limits-adopted', 'result-corrected', 'result-withdrawn', 'result-restated')
      order by seq
      """;

  /** How far a chain goes. */
  private record End(long seq, String hash) {}

  private final Session database;
  private final DataSource connections;
  private final ObjectMapper json;

  EntriesInPostgres(Session database, DataSource connections, ObjectMapper json) {
    this.database = database;
    this.connections = connections;
    this.json = json;
  }

  @Override
  public String canonical(Object content) {
    return CanonicalJson.of(json.<JsonNode>valueToTree(content));
  }

  /** By the transaction's connection, which Hibernate has given back when this is called. */
  @Override
  public void append(List<Entry.Unchained> entries) {
    try (Connection connection = connections.getConnection()) {
      append(connection, entries);
    } catch (SQLException failed) {
      throw new PersistenceException(failed);
    }
  }

  private static void append(Connection connection, List<Entry.Unchained> entries)
      throws SQLException {
    Map<String, End> ends =
        ends(connection, entries.stream().map(each -> each.deed().chain()).distinct().toList());
    List<Entry> chained = new ArrayList<>(entries.size());
    for (Entry.Unchained unchained : entries) {
      End end = ends.get(unchained.deed().chain());
      Entry entry = end == null ? unchained.behind(0, null) : unchained.behind(end.seq, end.hash);
      ends.put(entry.chain(), new End(entry.seq(), entry.hash()));
      chained.add(entry);
    }
    EntriesInBulk.insert(connection, chained);
    // In one order, although none of them waits for anybody.
    announce(connection, new TreeMap<>(ends));
  }

  private static Map<String, End> ends(Connection connection, Collection<String> chains)
      throws SQLException {
    Map<String, End> ends = new HashMap<>();
    try (PreparedStatement query = connection.prepareStatement(ENDS)) {
      query.setArray(1, connection.createArrayOf("text", chains.toArray()));
      try (ResultSet rows = query.executeQuery()) {
        while (rows.next()) {
          ends.put(rows.getString(1), new End(rows.getLong(2), rows.getString(3)));
        }
      }
    }
    return ends;
  }

  private static void announce(Connection connection, Map<String, End> ends) throws SQLException {
    try (PreparedStatement insert =
        connection.prepareStatement("insert into ledger_fresh (chain, seq) values (?, ?)")) {
      for (Map.Entry<String, End> end : ends.entrySet()) {
        insert.setString(1, end.getKey());
        insert.setLong(2, end.getValue().seq);
        insert.addBatch();
      }
      insert.executeBatch();
    }
  }

  @Override
  public List<Read> after(Place exclusive, Filter filter, int most) {
    String conditions =
        (filter.lines() == null ? "" : " and h.line in (:lines)")
            + (filter.stream() == null ? "" : " and e.stream = :stream");
    NativeQuery<Tuple> query =
        database
            .createNativeQuery(PAGE.formatted(conditions), Tuple.class)
            .setParameter("number", exclusive.head())
            .setParameter("chain", exclusive.chain())
            .setParameter("seq", exclusive.seq())
            .setMaxResults(most);
    if (filter.lines() != null) {
      query.setParameterList("lines", filter.lines());
    }
    if (filter.stream() != null) {
      query.setParameter("stream", filter.stream());
    }
    return query.getResultList().stream().map(EntriesInPostgres::toRead).toList();
  }

  @Override
  public List<Done> changes(UUID stream) {
    return database
        .createNativeQuery(CHANGES, Tuple.class)
        .setParameter("chain", Deed.chain(stream))
        .getResultStream()
        .map(
            row ->
                new Done(
                    Act.named(row.get("action", String.class)),
                    row.get("subject", String.class),
                    row.get("actor", String.class)))
        .toList();
  }

  private static Read toRead(Tuple row) {
    return new Read(
        row.get("number", Long.class),
        new Entry(
            row.get("chain", String.class),
            row.get("seq", Long.class),
            row.get("at", Instant.class),
            row.get("actor", String.class),
            row.get("action", String.class),
            row.get("line", String.class),
            row.get("stream", String.class),
            row.get("subject", String.class),
            row.get("content", String.class),
            row.get("previous_hash", String.class),
            row.get("hash", String.class)));
  }
}
