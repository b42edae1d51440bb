package org.sapotrace.bench.rest;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.chemistry.Verdict;

/** What a calculation comes to. */
record CalculationView(
    Figure result,
    @Nullable Verdict verdict,
    @Nullable UsedTitrant titrant,
    List<String> cautions) {

  static CalculationView of(Assessment assessment) {
    return new CalculationView(
        assessment.result(), assessment.verdict(), assessment.titrant(), assessment.cautions());
  }
}
