package org.sapotrace.bench.rest;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.rest.ImportView.RefusedRow;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.RepeatableParts;
import org.sapotrace.http.RowReader;
import org.sapotrace.http.SentRows;
import org.sapotrace.refusal.Refusal;

/** One import: the rows of a body on their way into a stream. */
final class Import {

  /** A body of which so many rows are refused is not what it is taken for. */
  static final int MOST_REFUSED = 1000;

  /** The longest body that is held in memory, in bytes, to be taken as a whole or not at all. */
  private static final int LONGEST_WHOLE = 10 << 20;

  private final RepeatableParts parts;
  private final boolean repeatable;
  private final RowReader reader;
  private final SentRows body;
  private final int firstRow;
  private final Function<List<Entry>, List<Optional<Refusal>>> recorder;

  private final List<RefusedRow> refused = new ArrayList<>();
  private int accepted;
  private int part;
  private int lastRow;

  /** Whether blocks are recorded; those that a repeat passes over need not be read. */
  private boolean recording;

  /**
   * An import of a body.
   *
   * @param firstRow the number of the first row that holds an entry
   * @param recorder records entries together, answering why each of them was refused
   * @throws RuntimeException that becomes a 400 where it has a key that is none
   */
  Import(
      RepeatableParts parts,
      RowReader reader,
      SentRows body,
      int firstRow,
      Function<List<Entry>, List<Optional<Refusal>>> recorder) {
    this.parts = parts;
    this.repeatable = parts.isRepeatable();
    this.recording = !repeatable;
    this.reader = reader;
    this.body = body;
    this.firstRow = firstRow;
    this.recorder = recorder;
  }

  /** Each row is taken or refused by itself. */
  ImportView blockByBlock(EntryRows form) throws IOException {
    try (ReadAhead<Next> ahead = new ReadAhead<>()) {
      Next next = next(firstRow, form, recording);
      while (!next.block.isEmpty() && refused.size() < MOST_REFUSED) {
        Next some = next;
        boolean parsed = recording;
        ahead.begin(() -> next(some.block.last() + 1, form, parsed));
        ImportView done = once(some.block.fingerprint(), () -> record(some, form));
        accepted += done.accepted();
        refused.addAll(done.refused());
        lastRow = some.block.last();
        next = ahead.finish();
      }
      if (!next.block.isEmpty()) {
        refused.add(RefusedRow.stopped(next.block.first()));
      }
    }
    body.pass();
    once("all " + body.fingerprint(), () -> new ImportView(0, List.of()));
    return new ImportView(accepted, refused);
  }

  /** A block to be recorded next; its content is null where it may be on record already. */
  private record Next(EntryBlock block, EntryBlock.@Nullable Content content) {}

  private Next next(int first, EntryRows form, boolean parsed) throws IOException {
    EntryBlock block = EntryBlock.next(body, first);
    return new Next(block, parsed ? block.read(form, reader) : null);
  }

  private ImportView record(Next next, EntryRows form) {
    recording = true;
    EntryBlock.Content parsed = next.content;
    EntryBlock.Content content = parsed == null ? next.block.read(form, reader) : parsed;
    List<RefusedRow> here = new ArrayList<>(content.refused());
    int recorded = EntryBlock.record(content.placed(), recorder, here);
    here.sort(Comparator.comparing(RefusedRow::row));
    return new ImportView(recorded, here);
  }

  private ImportView once(String fingerprint, Supplier<ImportView> work) {
    return parts.once(++part, fingerprint, ImportView.class, work);
  }

  /** All rows are taken or none. */
  ImportView whole(EntryRows form) throws IOException {
    List<EntryBlock> blocks = new ArrayList<>();
    long bytes = 0;
    EntryBlock block = EntryBlock.next(body, firstRow);
    while (!block.isEmpty()) {
      blocks.add(block);
      bytes += block.bytes();
      if (bytes > LONGEST_WHOLE) {
        throw tooLongAsAWhole();
      }
      block = EntryBlock.next(body, block.last() + 1);
    }
    try {
      return once(body.fingerprint(), () -> recordWhole(blocks, form));
    } catch (SomeRefused none) {
      return new ImportView(0, none.listed());
    }
  }

  private static RuntimeException tooLongAsAWhole() {
    return Problem.of(
            ProblemType.TOO_LARGE,
            "With atomic=true at most 10 MiB are taken, and nothing was recorded: send less at"
                + " once, or have each row taken or refused by itself.")
        .asException();
  }

  private ImportView recordWhole(List<EntryBlock> blocks, EntryRows form) {
    List<RefusedRow> wrong = new ArrayList<>();
    List<EntryBlock.Placed> placed = new ArrayList<>();
    for (EntryBlock block : blocks) {
      EntryBlock.Content content = block.read(form, reader);
      placed.addAll(content.placed());
      wrong.addAll(content.refused());
    }
    placed.sort(Comparator.comparing(each -> each.entry().sampledAt()));
    int recorded = 0;
    for (int from = 0; from < placed.size(); from += EntryBlock.MOST_ROWS) {
      int to = Math.min(placed.size(), from + EntryBlock.MOST_ROWS);
      recorded += EntryBlock.record(placed.subList(from, to), recorder, wrong);
    }
    if (!wrong.isEmpty()) {
      throw new SomeRefused(wrong);
    }
    return new ImportView(recorded, List.of());
  }

  /** Takes back what was recorded of a body that is to be taken as a whole. */
  private static final class SomeRefused extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final transient List<RefusedRow> refused;

    SomeRefused(List<RefusedRow> refused) {
      super("rows were refused");
      this.refused = refused;
    }

    List<RefusedRow> listed() {
      List<RefusedRow> listed = new ArrayList<>(refused);
      listed.sort(Comparator.comparing(RefusedRow::row));
      if (listed.size() > MOST_REFUSED) {
        RefusedRow next = listed.get(MOST_REFUSED);
        listed.subList(MOST_REFUSED, listed.size()).clear();
        listed.add(RefusedRow.stopped(next.row()));
      }
      return listed;
    }
  }

  /** To be thrown where it cannot go on, telling what was recorded until then. */
  RuntimeException interrupted(Exception failure) {
    if (lastRow == 0 && failure instanceof RuntimeException untouched) {
      return untouched;
    }
    String before =
        "All rows up to row %d were dealt with before: %d recorded, %d refused.%s"
            .formatted(
                lastRow,
                accepted,
                refused.size(),
                repeatable
                    ? " Send the same again with the same Idempotency-Key, and it goes on from there."
                    : " Send the rows behind it again.");
    return parts.interrupted(failure, lastRow == 0 ? "Nothing was recorded." : before);
  }
}
