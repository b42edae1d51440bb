package org.sapotrace.titrant;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Results;
import org.sapotrace.chemistry.DatedStrength;
import org.sapotrace.chemistry.StrengthHistory;

/** Tells whoever wants to know when a lot leaves its tolerance. */
@ApplicationScoped
class ToleranceWatch {

  private enum Standing {
    WITHIN,
    LEAVING,
    OUTSIDE
  }

  private record Finding(Standing standing, @Nullable LocalDate on) {}

  private final Results results;
  private final StandardisationValidity validity;
  private final Event<LeavingTolerance> leaving;

  ToleranceWatch(
      Results results, StandardisationValidity validity, Event<LeavingTolerance> leaving) {
    this.results = results;
    this.validity = validity;
    this.leaving = leaving;
  }

  /**
   * Tells of a standardisation that was just recorded, where it shows more than was known.
   *
   * @param before what was known of the lot without it
   */
  void tell(TitrantLot lot, StrengthHistory before, UUID standardisation) {
    List<DatedStrength> now = KnownLot.of(lot, results).history().standardisations();
    Finding finding = finding(lot.declared(), now);
    if (finding.standing().compareTo(finding(lot.declared(), before.standardisations()).standing())
        > 0) {
      leaving.fire(
          new LeavingTolerance(
              lot.declared().slug(),
              lot.stream(),
              standardisation,
              now.get(now.size() - 1).normality().quantity().molesPerLitre(),
              lot.declared().tolerance(),
              finding.on()));
    }
  }

  private Finding finding(LotDeclaration lot, List<DatedStrength> standardisations) {
    if (standardisations.isEmpty()) {
      return new Finding(Standing.WITHIN, null);
    }
    DatedStrength last = standardisations.get(standardisations.size() - 1);
    if (!lot.tolerance().allows(last.normality().quantity().molesPerLitre())) {
      return new Finding(Standing.OUTSIDE, null);
    }
    Instant at = last.performedAt();
    StrengthTrend.Leaving leaves = StrengthTrend.of(lot, standardisations, at).leavesTolerance();
    LocalDate nextDue = LotCautions.day(at.plus(validity.duration()));
    return leaves == null || leaves.on().isAfter(nextDue)
        ? new Finding(Standing.WITHIN, null)
        : new Finding(Standing.LEAVING, leaves.on());
  }
}
