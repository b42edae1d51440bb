package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.Stream;

/** Tells by what the results of the streams are judged. */
@ApplicationScoped
class Regimes {

  private final LimitsRevisions limitsRevisions;
  private final Logbook logbook;

  Regimes(LimitsRevisions limitsRevisions, Logbook logbook) {
    this.limitsRevisions = limitsRevisions;
    this.logbook = logbook;
  }

  Regime of(Stream stream) {
    return new Regime(limitsRevisions.of(stream.id()), Phases.of(logbook.beginningPhases(stream)));
  }
}
