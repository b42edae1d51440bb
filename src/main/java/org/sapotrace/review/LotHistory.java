package org.sapotrace.review;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.sapotrace.productline.Line;
import org.sapotrace.titrant.Restatement;
import org.sapotrace.titrant.Restater;
import org.sapotrace.titrant.Titrants;

/** Tells what became of titrant lots. */
@ApplicationScoped
class LotHistory {

  private final Titrants titrants;
  private final Restater restater;

  LotHistory(Titrants titrants, Restater restater) {
    this.titrants = titrants;
    this.restater = restater;
  }

  List<LotReview> of(Collection<String> lots, Line line, Period period) {
    return lots.stream()
        .sorted()
        .map(
            lot ->
                new LotReview(
                    titrants.lot(lot), standardisations(lot, period), restated(lot, line, period)))
        .toList();
  }

  private List<Titrants.Standardised> standardisations(String lot, Period period) {
    List<Titrants.Standardised> all = titrants.standardisations(lot, null, Integer.MAX_VALUE);
    // Results at both ends of the period may count with what was found outside it.
    Instant first = lastBefore(all, period.from());
    Instant last = firstBehind(all, period.to());
    return all.stream()
        .filter(each -> !each.result().sampledAt().isBefore(first))
        .filter(each -> !each.result().sampledAt().isAfter(last))
        .toList();
  }

  private static Instant lastBefore(List<Titrants.Standardised> all, Instant from) {
    return counting(all)
        .filter(at -> at.isBefore(from))
        .max(Comparator.naturalOrder())
        .orElse(from);
  }

  private static Instant firstBehind(List<Titrants.Standardised> all, Instant to) {
    return counting(all).filter(at -> at.isAfter(to)).min(Comparator.naturalOrder()).orElse(to);
  }

  private static Stream<Instant> counting(List<Titrants.Standardised> all) {
    return all.stream()
        .filter(each -> !each.result().latest().withdrawn())
        .map(each -> each.result().sampledAt());
  }

  private List<LotReview.Restated> restated(String lot, Line line, Period period) {
    return restater.restatements(lot, null, Integer.MAX_VALUE).stream()
        .map(each -> restated(each, line, period))
        .filter(each -> each.changed() > 0)
        .toList();
  }

  private static LotReview.Restated restated(Restatement all, Line line, Period period) {
    Set<UUID> changed =
        all.changed().stream()
            .filter(each -> each.line().equals(line.slug()) && period.holds(each.sampledAt()))
            .map(Restatement.Changed::result)
            .collect(Collectors.toSet());
    int turned = (int) all.verdictsTurned().stream().filter(changed::contains).count();
    return new LotReview.Restated(
        all.recordedAt(), all.from(), all.reason(), changed.size(), turned);
  }
}
