package org.sapotrace.bench.rest;

import static java.nio.charset.StandardCharsets.UTF_8;

import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jboss.resteasy.reactive.RestHeader;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.SentEntries;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.Requires;
import org.sapotrace.http.RowReader;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.refusal.Refusal;

/** Takes many entries at once, one JSON object in each line. */
@Path("/api/v1/lines/{line}/streams/{stream}/imports")
@Produces(MediaType.APPLICATION_JSON)
class ImportResource {

  /** What became of the rows. */
  record ImportView(int accepted, List<RefusedRow> refused) {}

  /**
   * A row that was not recorded.
   *
   * @param row its number in the body, counting from 1 and counting empty lines
   */
  record RefusedRow(int row, Problem problem) {}

  private record Row(int number, Entry entry) {}

  /** How many rows are recorded together; a failure of the service loses no earlier block. */
  private static final int BLOCK = 500;

  private final Bench bench;
  private final SentEntries sent;
  private final RowReader reader;

  ImportResource(Bench bench, SentEntries sent, RowReader reader) {
    this.bench = bench;
    this.sent = sent;
    this.reader = reader;
  }

  @POST
  @Requires(Scope.RECORD)
  @Consumes("application/x-ndjson")
  public ImportView take(
      @Slug String line,
      @Slug String stream,
      @RestQuery @DefaultValue("false") Boolean atomic,
      @RestHeader("Idempotency-Key") @Nullable String key,
      byte[] body) {
    bench.requireStream(line, stream);
    if (key != null) {
      throw Problem.of(
              ProblemType.NOT_YET,
              "Repeats of imports are not recognised yet, so nothing was done: leave"
                  + " Idempotency-Key out, and look what was recorded before a retry.")
          .asException();
    }
    List<RefusedRow> refused = new ArrayList<>();
    List<Row> rows = read(body, refused);
    rows = acceptable(line, stream, rows, refused);
    int accepted = 0;
    if (!atomic) {
      for (int from = 0; from < rows.size(); from += BLOCK) {
        List<Row> block = rows.subList(from, Math.min(from + BLOCK, rows.size()));
        accepted += record(line, stream, block, refused);
      }
    } else if (refused.isEmpty()) {
      bench.recordAll(line, stream, entries(rows));
      accepted = rows.size();
    }
    refused.sort(Comparator.comparingInt(RefusedRow::row));
    return new ImportView(accepted, refused);
  }

  /** Records a block together, or row by row if that is refused; the number of rows recorded. */
  private int record(String line, String stream, List<Row> block, List<RefusedRow> refused) {
    try {
      bench.recordAll(line, stream, entries(block));
      return block.size();
    } catch (Refusal changedMeanwhile) {
      int accepted = 0;
      for (Row row : block) {
        try {
          bench.record(line, stream, row.entry());
          accepted++;
        } catch (Refusal refusal) {
          refused.add(new RefusedRow(row.number(), Problem.of(refusal)));
        }
      }
      return accepted;
    }
  }

  private static List<Entry> entries(List<Row> rows) {
    return rows.stream().map(Row::entry).toList();
  }

  private List<Row> read(byte[] body, List<RefusedRow> refused) {
    List<Row> rows = new ArrayList<>();
    int number = 0;
    for (int from = 0; from < body.length; ) {
      int end = endOfRow(body, from);
      number++;
      read(Arrays.copyOfRange(body, from, end), number, rows, refused);
      from = end + 1;
    }
    return rows;
  }

  private static int endOfRow(byte[] body, int from) {
    int end = from;
    while (end < body.length && body[end] != '\n') {
      end++;
    }
    return end;
  }

  private void read(byte[] row, int number, List<Row> rows, List<RefusedRow> refused) {
    if (new String(row, UTF_8).isBlank()) {
      return;
    }
    try {
      rows.add(new Row(number, sent.read(row)));
    } catch (RuntimeException failure) {
      refused.add(new RefusedRow(number, reader.problem(failure)));
    }
  }

  /** The rows that can be recorded, in the order of sampling, so that none of them is late. */
  private List<Row> acceptable(
      String line, String stream, List<Row> rows, List<RefusedRow> refused) {
    List<Optional<Refusal>> refusals =
        bench.refusals(line, stream, rows.stream().map(Row::entry).toList());
    List<Row> acceptable = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      Row row = rows.get(i);
      refusals
          .get(i)
          .ifPresentOrElse(
              refusal -> refused.add(new RefusedRow(row.number(), Problem.of(refusal))),
              () -> acceptable.add(row));
    }
    acceptable.sort(Comparator.comparing(row -> row.entry().sampledAt()));
    return acceptable;
  }
}
