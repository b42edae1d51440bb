package org.sapotrace.review;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.Collection;
import java.util.List;
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
    int first = 0;
    for (int i = 0; i < all.size(); i++) {
      boolean counts = !all.get(i).result().latest().withdrawn();
      // The last one before the period is what its first results count with.
      if (counts && all.get(i).result().sampledAt().isBefore(period.from())) {
        first = i;
      }
    }
    return all.subList(first, all.size()).stream()
        .filter(each -> !each.result().sampledAt().isAfter(period.to()))
        .toList();
  }

  private List<Restatement> restated(String lot, Line line, Period period) {
    return restater.restatements(lot, null, Integer.MAX_VALUE).stream()
        .filter(
            each ->
                each.changed().stream()
                    .anyMatch(
                        changed ->
                            changed.line().equals(line.slug())
                                && period.holds(changed.sampledAt())))
        .toList();
  }
}
