package org.sapotrace.demonstration;

import jakarta.enterprise.context.Dependent;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Corrections;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.Titration;
import org.sapotrace.refusal.Refusal;

/*
 * Whoever records results one by one, or those of a few days together, has the same record in the
 * end; together is several times faster. So notes wait until something else is done that rests on
 * them: limits, findings, a standardisation.
 */
/** Results that are written down at the bench, until they are recorded. */
@Dependent
class BenchNotes {

  private record Stream(Product line, Place place) {}

  private final Bench bench;
  private final Corrections corrections;
  private final Map<Stream, List<Entry>> waiting = new LinkedHashMap<>();

  BenchNotes(Bench bench, Corrections corrections) {
    this.bench = bench;
    this.corrections = corrections;
  }

  /** Notes what was written down on a day. */
  void write(List<BenchWork.Written> written, int day) {
    for (BenchWork.Written each : written) {
      Slip slip = Slip.at(each.line(), each.place(), day).orElse(null);
      if (slip != null && each.entry() instanceof Titration right) {
        putRight(each, slip, right);
      } else {
        waiting
            .computeIfAbsent(new Stream(each.line(), each.place()), stream -> new ArrayList<>())
            .add(each.entry());
      }
    }
  }

  /** Records what waits, each stream's together. */
  void recordAll() {
    waiting.forEach(this::record);
    waiting.clear();
  }

  private void record(Stream stream, List<Entry> entries) {
    for (Optional<Refusal> refusal :
        bench.recordAll(stream.line().slug(), stream.place().slug(), entries)) {
      refusal.ifPresent(
          refused -> {
            throw refused;
          });
    }
  }

  /** A slip stands on the chart as it was written down, until it is corrected. */
  private void putRight(BenchWork.Written at, Slip slip, Titration right) {
    recordAll();
    UUID wrong =
        bench.record(at.line().slug(), at.place().slug(), slip.written(right)).result().id();
    corrections.correct(wrong, slip.correction(right));
  }
}
