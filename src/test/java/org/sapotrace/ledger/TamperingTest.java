package org.sapotrace.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import javax.sql.DataSource;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Changes what must not change, as somebody does who owns the database; and takes it back. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class TamperingTest {

  private static final List<String> PERMISSION =
      List.of(
          "grant update, delete on ledger_entry, ledger_head, ledger_head_chain to current_user",
          "alter table ledger_entry disable trigger user",
          "alter table ledger_head disable trigger user",
          "alter table ledger_head_chain disable trigger user");

  @Inject DataSource database;

  private String chain;
  private String result;
  private List<Long> heads;

  /** A chain of four entries, of which at least two heads tell. */
  @BeforeEach
  void record() {
    TestStream stream = TestStream.other("[]");
    String filter = "?line=" + stream.line + "&stream=watched";
    stream.record(10);
    LedgerTest.entries(filter);
    result = stream.record(11).path("id").asText();
    stream.record(12);
    List<JsonNode> entries = LedgerTest.entries(filter);
    chain = entries.get(0).path("chain").asText();
    heads = entries.stream().map(entry -> entry.path("head").asLong()).toList();
  }

  /** The head that tells of an entry. */
  private long head(int seq) {
    return heads.get(seq - 1);
  }

  @Test
  void isNotNeededForAnIntactLedger() throws SQLException {
    Verification found = after();

    assertThat(found.firstBroken()).isNull();
    assertThat(found.intact()).isTrue();
    assertThat(found.entries()).isGreaterThanOrEqualTo(4);
  }

  @Test
  void isNotAllowedToTheService() {
    for (String change :
        List.of(
            "update ledger_entry set actor = 'nobody'",
            "delete from ledger_entry",
            "truncate ledger_entry",
            "update ledger_head set at = now()",
            "delete from ledger_head_chain")) {
      assertThatThrownBy(() -> run(change)).hasMessageContaining("permission denied");
    }
  }

  @Test
  void isNotAllowedByMistakeToWhoeverMayDoEverything() {
    for (String change :
        List.of("update ledger_entry set actor = 'nobody'", "delete from ledger_head_chain")) {
      assertThatThrownBy(() -> run(PERMISSION.get(0), change))
          .hasMessageContaining("the ledger is only ever added to");
    }
  }

  @Test
  void showsInAnEntryThatWasChanged() throws SQLException {
    Verification found =
        after("update ledger_entry set actor = 'nobody' where chain = '%s' and seq = 3");

    assertBroken(found, head(3), 3L, "The entry was changed");
  }

  @Test
  void showsInTheEntryBehindOneWhoseHashWasMadeToFit() throws SQLException {
    Verification found =
        after(
            "update ledger_entry set hash = repeat('a', 64) where chain = '%s' and seq = 3",
            "update ledger_entry set previous_hash = repeat('a', 64) where chain = '%s' and seq = 4");

    assertBroken(found, head(3), 3L, "The entry was changed");
  }

  @Test
  void showsInAnEntryThatIsMissing() throws SQLException {
    assertBroken(
        after("delete from ledger_entry where chain = '%s' and seq = 2"),
        head(2),
        2L,
        "The entry is missing");
  }

  @Test
  void showsInAChainThatWasCutShort() throws SQLException {
    assertBroken(
        after("delete from ledger_entry where chain = '%s' and seq >= 4"),
        head(4),
        4L,
        "The entry is missing: the head tells of 4");
  }

  @Test
  void showsInAChainThatIsGone() throws SQLException {
    assertBroken(
        after("delete from ledger_entry where chain = '%s'"), head(1), 1L, "The entry is missing");
  }

  @Test
  void showsInALastEntryThatWasWrittenAnew() throws SQLException {
    try (Connection connection = database.getConnection()) {
      connection.setAutoCommit(false);
      Entry last = last(connection);
      Entry forged =
          new Entry(
              last.chain(),
              last.seq(),
              last.at(),
              "nobody",
              last.action(),
              last.line(),
              last.stream(),
              last.subject(),
              last.content(),
              last.previousHash(),
              "");
      Verification found =
          after(
              connection,
              "update ledger_entry set actor = 'nobody', hash = '%s' where chain = '%s' and seq = 4"
                  .formatted(forged.hash(last.previousHash()), chain));

      assertBroken(found, head(4), null, "The head tells of other entries");
    }
  }

  private Entry last(Connection connection) throws SQLException {
    try (Statement query = connection.createStatement();
        var rows =
            query.executeQuery(
                "select * from ledger_entry where chain = '%s' and seq = 4".formatted(chain))) {
      rows.next();
      return LedgerRows.entry(rows);
    }
  }

  @Test
  void showsInAHeadThatWasChanged() throws SQLException {
    assertBroken(
        after("update ledger_head set at = at + interval '1 s' where number = " + head(4)),
        head(4),
        null,
        "The head was changed");
  }

  @Test
  void showsInAHeadThatIsMissing() throws SQLException {
    Verification found =
        after(
            "delete from ledger_head_chain where number = " + head(2),
            "delete from ledger_head where number = " + head(2));

    assertThat(found.firstBroken().head()).isGreaterThan(head(2));
    assertThat(found.firstBroken().problem()).contains("The entry is missing");
  }

  @Test
  void showsInAChainOfHeadsThatWasCutShort() throws SQLException {
    Verification found =
        after(
            "delete from ledger_head_chain where number >= " + head(4),
            "delete from ledger_head where number >= " + head(4));

    assertThat(found.firstBroken().problem()).contains("No head tells of the entry");
  }

  @Test
  void showsInAResultThatIsNoLongerAsItWasEntered() throws SQLException {
    for (String change : List.of("value = 10.9", "withdrawn = true", "entered = '{}'")) {
      assertBroken(
          after("update result_revision set %s where result_id = '%s'".formatted(change, result)),
          head(3),
          3L,
          "Revision 1 of result %s is on record otherwise".formatted(result));
    }
  }

  @Test
  void showsInAResultThatIsNoLongerOnRecord() throws SQLException {
    assertBroken(
        after("delete from result_revision where result_id = '%s'".formatted(result)),
        head(3),
        3L,
        "is not on record");
  }

  @Test
  void showsInARevisionThatSomebodyAdds() throws SQLException {
    assertUntold(
        """
        insert into result_revision
        select stream_id, result_id, 2, now(), 'tidied up', withdrawn, 9.5, entered, determination
        from result_revision where result_id = '%s'
        """
            .formatted(result),
        "Revision 2 of result %s is on record, and no entry tells of it.".formatted(result));
  }

  @Test
  void showsInAResultThatSomebodyAdds() throws SQLException {
    assertUntold(
        """
        with added as (
          insert into result (stream_id, id, batch, sampled_at)
          select stream_id, gen_random_uuid(), batch, sampled_at from result where id = '%1$s'
          returning stream_id, id)
        insert into result_revision
        select a.stream_id, a.id, 1, now(), null, false, 9.5, r.entered, r.determination
        from added a, result_revision r where r.result_id = '%1$s'
        """
            .formatted(result),
        "is on record, and no entry tells of it.");
  }

  @Test
  void isNotWhatIsOlderThanTheLedger() throws SQLException {
    Verification found =
        after(
            """
            insert into result_revision
            select stream_id, result_id, 2, now(), 'tidied up', withdrawn, value, entered, determination
            from result_revision where result_id = '%1$s'
            """
                .formatted(result),
            "insert into ledger_older select '%s', id::text, 2 from result where id = '{result}'"
                .replace("{result}", result));
    assertThat(found.firstBroken()).isNull();
  }

  @Test
  void showsInAResultOfWhichNothingWasEntered() throws SQLException {
    assertUntold(
        """
        insert into result (stream_id, id, batch, sampled_at)
        select stream_id, gen_random_uuid(), batch, sampled_at from result where id = '%s'
        """
            .formatted(result),
        "or none was");
  }

  @Test
  void showsInTheBatchOrTimeOfAResult() throws SQLException {
    for (String change : List.of("batch = 'K-9999'", "sampled_at = sampled_at + interval '1 h'")) {
      assertUntold(
          "update result set %s where id = '%s'".formatted(change, result),
          "Result %s is on record with another batch or time".formatted(result));
    }
  }

  private void assertUntold(String change, String problem) throws SQLException {
    Verification.Broken broken = after(change).firstBroken();
    assertThat(broken.problem()).contains(problem);
    assertThat(broken.chain()).isEqualTo(chain);
    assertThat(broken.seq()).isNull();
  }

  private void assertBroken(Verification found, Long head, Long seq, String problem) {
    Verification.Broken broken = found.firstBroken();
    assertThat(found.intact()).isFalse();
    assertThat(broken.problem()).contains(problem);
    assertThat(broken.head()).isEqualTo(head);
    assertThat(broken.seq()).isEqualTo(seq);
    assertThat(broken.chain()).isEqualTo(seq == null ? null : chain);
  }

  private Verification after(String... changes) throws SQLException {
    try (Connection connection = database.getConnection()) {
      connection.setAutoCommit(false);
      return after(connection, changes);
    }
  }

  /** What is found after changes, which are rolled back. */
  private Verification after(Connection connection, String... changes) throws SQLException {
    try {
      execute(connection, PERMISSION.toArray(String[]::new));
      execute(connection, changes);
      return LedgerCheck.of(connection);
    } finally {
      connection.rollback();
    }
  }

  private void run(String... statements) throws SQLException {
    try (Connection connection = database.getConnection()) {
      connection.setAutoCommit(false);
      try {
        execute(connection, statements);
      } finally {
        connection.rollback();
      }
    }
  }

  private void execute(Connection connection, String... statements) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      for (String each : statements) {
        statement.execute(each.replace("%s", chain));
      }
    }
  }
}
