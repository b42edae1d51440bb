package org.sapotrace.ledger;

import java.sql.Array;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/*
 * The one place where the ledger knows a table of somebody else: it is to be checked without the
 * service, and a value on record that is another than was entered is what matters in the end.
 */
/** Compares the revisions of results on record with what the ledger says of them. */
final class RevisionCheck {

  private static final int COMPARED_AT_ONCE = 500;

  private static final String ON_RECORD =
      """
      select wanted.place, r.value, r.withdrawn, r.entered, r.determination
      from unnest(?, ?, ?, ?) as wanted (place, stream, result, revision)
      join result_revision r on r.stream_id = cast(wanted.stream as uuid)
        and r.result_id = cast(wanted.result as uuid) and r.revision = wanted.revision
      """;

  /** An entry about a revision that is still to be compared. */
  private record Sealed(@Nullable Long head, Entry entry, RevisionSeal seal) {

    String stream() {
      return entry.chain().substring(entry.chain().indexOf('/') + 1);
    }
  }

  private final Connection connection;
  private final List<Sealed> waiting = new ArrayList<>();
  private final Map<String, Long> told = new HashMap<>();

  RevisionCheck(Connection connection) {
    this.connection = connection;
  }

  /** Takes an entry, and tells what is wrong with the first of those taken, if it is known yet. */
  Optional<Verification.Broken> follow(@Nullable Long head, Entry entry) throws SQLException {
    Optional<RevisionSeal> seal = RevisionSeal.in(entry);
    if (seal.isPresent()) {
      waiting.add(new Sealed(head, entry, seal.get()));
      told.merge(entry.chain(), 1L, Long::sum);
    }
    return waiting.size() < COMPARED_AT_ONCE ? Optional.empty() : rest();
  }

  /** What is wrong with the first of those taken that were not compared yet. */
  Optional<Verification.Broken> rest() throws SQLException {
    if (waiting.isEmpty()) {
      return Optional.empty();
    }
    Map<Integer, String> seals = onRecord();
    Optional<Verification.Broken> broken = Optional.empty();
    for (int i = 0; i < waiting.size() && broken.isEmpty(); i++) {
      Sealed sealed = waiting.get(i);
      if (!sealed.seal().hash().equals(seals.get(i))) {
        broken = Optional.of(broken(sealed, seals.containsKey(i)));
      }
    }
    waiting.clear();
    return broken;
  }

  /** How many revisions were told of in each chain. */
  Map<String, Long> told() {
    return told;
  }

  private static Verification.Broken broken(Sealed sealed, boolean isThere) {
    String problem =
        "Revision %d of result %s %s."
            .formatted(
                sealed.seal().revision(),
                sealed.entry().subject(),
                isThere
                    ? "is on record otherwise than the entry says"
                    : "is not on record, although the entry tells of it");
    return new Verification.Broken(
        sealed.head(), sealed.entry().chain(), sealed.entry().seq(), problem);
  }

  private Map<Integer, String> onRecord() throws SQLException {
    Map<Integer, String> seals = new HashMap<>();
    try (PreparedStatement query = connection.prepareStatement(ON_RECORD)) {
      Integer[] places = new Integer[waiting.size()];
      for (int i = 0; i < places.length; i++) {
        places[i] = i;
      }
      query.setArray(1, connection.createArrayOf("integer", places));
      query.setArray(2, texts(waiting.stream().map(Sealed::stream).toArray()));
      query.setArray(3, texts(waiting.stream().map(each -> each.entry().subject()).toArray()));
      query.setArray(
          4,
          connection.createArrayOf(
              "integer", waiting.stream().map(each -> each.seal().revision()).toArray()));
      try (ResultSet rows = query.executeQuery()) {
        while (rows.next()) {
          seals.put(
              rows.getInt(1),
              RevisionSeal.of(
                  rows.getDouble(2), rows.getBoolean(3), rows.getString(4), rows.getString(5)));
        }
      }
    }
    return seals;
  }

  private Array texts(Object[] texts) throws SQLException {
    return connection.createArrayOf("text", texts);
  }
}
