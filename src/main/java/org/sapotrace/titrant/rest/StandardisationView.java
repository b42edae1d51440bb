package org.sapotrace.titrant.rest;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.time.Instant;
import java.util.UUID;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Strength;
import org.sapotrace.titrant.Titrants;

/** A standardisation as it is answered. */
record StandardisationView(
    UUID id,
    String lot,
    Instant performedAt,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean withdrawn,
    @JsonUnwrapped Strength strength) {

  static StandardisationView of(Titrants.Standardised standardised) {
    RecordedResult result = standardised.result();
    return new StandardisationView(
        result.id(),
        result.batch(),
        result.sampledAt(),
        result.latest().withdrawn(),
        Strength.of(result.latest().assessment(), standardised.changeSinceLast()));
  }
}
