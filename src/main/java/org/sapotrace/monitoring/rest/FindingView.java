package org.sapotrace.monitoring.rest;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.monitoring.Finding;

/** A finding as it is answered. */
record FindingView(
    String cause, @Nullable String action, String by, Instant at, List<UUID> exclude) {

  static FindingView of(Finding finding) {
    return new FindingView(
        finding.cause(), finding.action(), finding.by(), finding.at(), finding.exclude());
  }
}
