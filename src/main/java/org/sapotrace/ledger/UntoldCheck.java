package org.sapotrace.ledger;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/*
 * Entries that are followed tell of revisions that must be there. This goes the other way. What is
 * told is there, so a stream with more revisions than are told, or older than the ledger, has one that
 * nobody told; only then is it looked for. And a result must be of the batch and time that its latest
 * revision was entered with, by which it is found and charted.
 */
/** Looks on record for results that are otherwise than anybody entered them. */
final class UntoldCheck {

  private static final String COUNTS =
      """
      select 'stream/' || r.stream_id,
        count(*) - (select count(*) from ledger_older o where o.chain = 'stream/' || r.stream_id)
      from result_revision r group by r.stream_id order by r.stream_id
      """;

  private static final String REVISION =
      """
      select 'Revision ' || r.revision || ' of result ' || r.result_id
        || ' is on record, and no entry tells of it.'
      from result_revision r
      left join (
        select subject, cast(substring(content from '"revision":([0-9]{1,9}),"seal":') as integer)
          as revision
        from ledger_entry where chain = ? and action like 'result-%'
        union all
        select subject, revision from ledger_older where chain = ?) told
        on told.subject = cast(r.result_id as text) and told.revision = r.revision
      where 'stream/' || r.stream_id = ? and told.subject is null
      order by r.result_id, r.revision limit 1
      """;

  // Times are kept to the microsecond, and entered as they were sent.
  private static final String SAMPLE =
      """
      select 'stream/' || r.stream_id,
        'Result ' || r.id || ' is on record with another batch or time than was entered, or none was.'
      from result r
      left join (
        select distinct on (stream_id, result_id) stream_id, result_id,
          coalesce(entered ->> 'batch', entered ->> 'lot') as batch,
          cast(coalesce(entered ->> 'sampledAt', entered ->> 'performedAt') as timestamptz) as at
        from result_revision order by stream_id, result_id, revision desc) latest
        on latest.stream_id = r.stream_id and latest.result_id = r.id
      where latest.result_id is null or r.batch <> latest.batch
        or abs(extract(epoch from r.sampled_at - latest.at)) > 0.00001
      order by r.stream_id, r.id limit 1
      """;

  private UntoldCheck() {}

  /**
   * The first that is found.
   *
   * @param told how many revisions are told of in each chain, all of which are on record
   */
  static Optional<Verification.Broken> of(Connection connection, Map<String, Long> told)
      throws SQLException {
    String chain = chainWithMore(connection, told);
    return chain == null ? movedSample(connection) : Optional.of(revision(connection, chain));
  }

  private static @Nullable String chainWithMore(Connection connection, Map<String, Long> told)
      throws SQLException {
    try (Statement query = connection.createStatement();
        ResultSet rows = query.executeQuery(COUNTS)) {
      while (rows.next()) {
        if (rows.getLong(2) > told.getOrDefault(rows.getString(1), 0L)) {
          return rows.getString(1);
        }
      }
      return null;
    }
  }

  private static Verification.Broken revision(Connection connection, String chain)
      throws SQLException {
    try (PreparedStatement query = connection.prepareStatement(REVISION)) {
      query.setString(1, chain);
      query.setString(2, chain);
      query.setString(3, chain);
      try (ResultSet rows = query.executeQuery()) {
        rows.next();
        return new Verification.Broken(null, chain, null, rows.getString(1));
      }
    }
  }

  private static Optional<Verification.Broken> movedSample(Connection connection)
      throws SQLException {
    try (Statement query = connection.createStatement();
        ResultSet rows = query.executeQuery(SAMPLE)) {
      return rows.next()
          ? Optional.of(new Verification.Broken(null, rows.getString(1), null, rows.getString(2)))
          : Optional.empty();
    }
  }
}
