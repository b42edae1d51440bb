package org.sapotrace.bench.rest;

import java.util.List;
import org.sapotrace.http.Problem;

/** What became of the rows of an import, or of some of them. */
record ImportView(int accepted, List<RefusedRow> refused) {

  /**
   * A row that was not recorded.
   *
   * @param row its number in the body, counting from 1 and counting empty rows and the header
   */
  record RefusedRow(int row, Problem problem) {}
}
