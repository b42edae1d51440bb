package org.sapotrace.bench.rest;

import com.fasterxml.jackson.databind.JsonNode;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.RowReader;
import org.sapotrace.refusal.Refusal;

/** How entries stand in the rows of a body. */
@FunctionalInterface
interface EntryRows {

  /**
   * The entry in a row that is not blank; null where it is empty all the same.
   *
   * @throws RuntimeException that {@link RowReader#problem} explains, where there is none
   */
  @Nullable NewEntry read(String row);

  /** Rows of one JSON object each. */
  static EntryRows json(RowReader reader) {
    return row -> reader.<NewEntry>read(row, EntryRows::shape);
  }

  /** Which kind of entry a row holds. */
  static Class<? extends NewEntry> shape(JsonNode row) {
    boolean titration = row.has("replicates");
    if (titration == row.has("values")) {
      throw Refusal.impossible(
          "An entry is either a titration with replicates or a result with values.");
    }
    return titration ? NewTitration.class : NewResult.class;
  }
}
