package org.sapotrace.bench.rest;

import java.util.List;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;

/** What became of the rows of an import, or of some of them. */
record ImportView(int accepted, List<RefusedRow> refused) {

  /**
   * A row that was not recorded.
   *
   * @param row its number in the body, counting from 1 and counting empty rows and the header
   */
  record RefusedRow(int row, Problem problem) {

    /** The first of the rows that nobody looked at, behind too many that were refused. */
    static RefusedRow stopped(int row) {
      return new RefusedRow(
          row,
          Problem.of(
              ProblemType.STOPPED,
              "So many rows were refused that neither this one nor any behind it was looked at or"
                  + " recorded: mend those listed, and import from this row on."));
    }
  }
}
