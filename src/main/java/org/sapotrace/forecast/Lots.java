package org.sapotrace.forecast;

import java.time.Instant;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.Map;
import org.sapotrace.attribution.Evidence.Result;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.productline.Line;

/**
 * What titrant lots were taken for behind a change. Once a lot is standardised anew its results are
 * right again, although it is as far off as before; so all results behind the change are compared
 * by what the first of them took the lot for.
 *
 * @param change since when
 * @param takenFor the normality of each lot, in mol/L
 */
record Lots(Instant change, Map<String, Double> takenFor) {

  /** No lot is called so, as a slug has no blanks. */
  private static final String OFF_RECORD = "titrant off the record, line ";

  Lots {
    takenFor = Collections.unmodifiableMap(new LinkedHashMap<>(takenFor));
  }

  /** The lots of some results that count. */
  static Lots of(Collection<RecordedResult> results, Instant change) {
    Map<String, Double> takenFor = new LinkedHashMap<>();
    results.stream()
        .filter(result -> !result.sampledAt().isBefore(change))
        .sorted(Comparator.comparing(RecordedResult::sampledAt))
        .map(result -> result.latest().assessment().titrant())
        .filter(used -> used != null && !used.interpolated())
        .forEach(used -> takenFor.putIfAbsent(used.lot(), used.normality()));
    return new Lots(change, takenFor);
  }

  /**
   * By how much a result moves for each titrant: for its lot on record, or for whatever else its
   * line titrates with. A restated result counts with what the lot was, and moves for none.
   */
  static Map<String, Integer> moving(RecordedResult result, Line line) {
    UsedTitrant used = result.latest().assessment().titrant();
    if (used == null) {
      return Result.titratedWith(OFF_RECORD + line.slug());
    }
    return used.interpolated() ? Map.of() : Result.titratedWith(used.lot());
  }

  /** Whether that is a lot on record. */
  static boolean isLot(String titrant) {
    return !titrant.startsWith(OFF_RECORD);
  }

  /** ln of what a result's lot was taken for over what it is compared by. */
  double offBasis(RecordedResult result) {
    UsedTitrant used = result.latest().assessment().titrant();
    if (used == null || used.interpolated() || result.sampledAt().isBefore(change)) {
      return 0;
    }
    return Math.log(used.normality() / takenFor.getOrDefault(used.lot(), used.normality()));
  }
}
