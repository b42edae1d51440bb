package org.sapotrace.forecast;

import java.util.Map;
import org.sapotrace.attribution.Evidence.Result;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.productline.Line;

/**
 * Tells titrants apart. What counts is a lot as what it was taken for: once it is standardised anew
 * its results are right again, although the lot is as far off as before.
 */
final class Lots {

  // A slug has no blanks, so that these tell a lot from what it is taken for, and from no lot.
  private static final String TAKEN_FOR = " taken for ";
  private static final String OFF_RECORD = " of line ";

  private Lots() {}

  /** The lot on record as it was used. */
  static String titrant(UsedTitrant used) {
    return used.lot() + TAKEN_FOR + used.normality();
  }

  /** The lot of a titrant; empty where none is on record. */
  static String lot(String titrant) {
    return titrant.substring(0, titrant.indexOf(' '));
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
    return used.interpolated() ? Map.of() : Result.titratedWith(titrant(used));
  }
}
