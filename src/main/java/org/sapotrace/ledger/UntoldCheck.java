package org.sapotrace.ledger;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Optional;

/*
 * Entries that are followed tell of revisions that must be there. This goes the other way: what is
 * there must have been told, and a result must be of the batch and time that its latest revision was
 * entered with, by which it is found and charted. Both are one pass over the tables.
 */
/** Looks on record for results that are otherwise than anybody entered them. */
final class UntoldCheck {

  private static final String REVISION =
      """
      select r.stream_id,
        'Revision ' || r.revision || ' of result ' || r.result_id
          || ' is on record, and no entry tells of it.'
      from result_revision r
      where not exists (
        select 1 from ledger_entry e
        where e.chain = 'stream/' || r.stream_id and e.subject = cast(r.result_id as text)
          and e.action like 'result-%'
          and cast(substring(e.content from '"revision":([0-9]{1,9}),"seal":') as integer) = r.revision)
      order by r.stream_id, r.result_id, r.revision limit 1
      """;

  // Times are kept to the microsecond, and entered as they were sent.
  private static final String SAMPLE =
      """
      select r.stream_id,
        'Result ' || r.id || ' is on record with another batch or time than was entered.'
      from result r
      join (
        select distinct on (stream_id, result_id) stream_id, result_id,
          coalesce(entered ->> 'batch', entered ->> 'lot') as batch,
          cast(coalesce(entered ->> 'sampledAt', entered ->> 'performedAt') as timestamptz) as at
        from result_revision order by stream_id, result_id, revision desc) latest
        on latest.stream_id = r.stream_id and latest.result_id = r.id
      where r.batch <> latest.batch or abs(extract(epoch from r.sampled_at - latest.at)) > 0.00001
      order by r.stream_id, r.id limit 1
      """;

  private UntoldCheck() {}

  /** The first that is found. */
  static Optional<Verification.Broken> of(Connection connection) throws SQLException {
    Optional<Verification.Broken> revision = first(connection, REVISION);
    return revision.isPresent() ? revision : first(connection, SAMPLE);
  }

  private static Optional<Verification.Broken> first(Connection connection, String untold)
      throws SQLException {
    try (Statement query = connection.createStatement();
        ResultSet rows = query.executeQuery(untold)) {
      return rows.next()
          ? Optional.of(
              new Verification.Broken(null, "stream/" + rows.getString(1), null, rows.getString(2)))
          : Optional.empty();
    }
  }
}
