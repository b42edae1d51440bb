package org.sapotrace.bench.rest;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.rest.ImportView.RefusedRow;
import org.sapotrace.http.Problem;
import org.sapotrace.http.RowReader;
import org.sapotrace.http.SentRows;
import org.sapotrace.refusal.Refusal;

/**
 * Rows that are recorded together. Which rows make up a block depends on nothing but the body, so
 * that a repeat is cut into the same.
 *
 * @param first the number of its first row
 * @param last the number of its last row; less than the first where there is none
 * @param bytes how long the rows are together
 * @param fingerprint of the body up to its end
 * @param rows those that are not empty
 */
record EntryBlock(int first, int last, long bytes, String fingerprint, List<SentRows.Row> rows) {

  static final int MOST_ROWS = 1000;
  private static final int MOST_BYTES = 4 << 20;

  /** An entry with its row. */
  record Placed(int row, Entry entry) {}

  /** What stands in the rows: entries, and why there is none in the others. */
  record Content(List<Placed> placed, List<RefusedRow> refused) {}

  /**
   * The next rows of a body; none at its end.
   *
   * @param first the number of the next row
   */
  static EntryBlock next(SentRows body, int first) throws IOException {
    List<SentRows.Row> rows = new ArrayList<>();
    int last = first - 1;
    long bytes = 0;
    while (last - first < MOST_ROWS - 1 && bytes < MOST_BYTES) {
      SentRows.Row row = body.next();
      if (row == null) {
        break;
      }
      last = row.number();
      bytes += row.bytes().length + 1;
      if (row.bytes().length > 0) {
        rows.add(row);
      }
    }
    return new EntryBlock(first, last, bytes, body.fingerprint(), rows);
  }

  boolean isEmpty() {
    return last < first;
  }

  Content read(EntryRows form, RowReader reader) {
    List<Placed> placed = new ArrayList<>();
    List<RefusedRow> refused = new ArrayList<>();
    for (SentRows.Row row : rows) {
      try {
        String text = RowReader.text(row);
        NewEntry entry = text.isBlank() ? null : form.read(text);
        if (entry != null) {
          placed.add(new Placed(row.number(), entry.toEntry()));
        }
      } catch (RuntimeException failure) {
        refused.add(new RefusedRow(row.number(), reader.problem(failure)));
      }
    }
    return new Content(placed, refused);
  }

  /** Has entries recorded; those refused join the others. The number of those recorded. */
  static int record(
      List<Placed> placed,
      Function<List<Entry>, List<Optional<Refusal>>> recorder,
      List<RefusedRow> refused) {
    int accepted = 0;
    List<Optional<Refusal>> refusals = recorder.apply(placed.stream().map(Placed::entry).toList());
    for (int i = 0; i < placed.size(); i++) {
      Optional<Refusal> refusal = refusals.get(i);
      if (refusal.isEmpty()) {
        accepted++;
      } else {
        refused.add(new RefusedRow(placed.get(i).row(), Problem.of(refusal.get())));
      }
    }
    return accepted;
  }
}
