package org.sapotrace.bench.rest;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import org.sapotrace.bench.PrecisionReport;
import org.sapotrace.bench.StreamPrecision;

/** The precision of a stream as it is answered. */
record PrecisionView(
    String line, String stream, String unit, @JsonUnwrapped PrecisionReport report) {

  static PrecisionView of(String line, StreamPrecision.Told told) {
    return new PrecisionView(line, told.stream().slug(), told.stream().unit(), told.report());
  }
}
