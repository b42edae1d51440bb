package org.sapotrace.attribution;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The titration that would tell most about what is undecided.
 *
 * @param kind what to titrate
 * @param titrant with what, or which to standardise; null where that makes no difference
 */
public record Wanted(Evidence.Kind kind, @Nullable String titrant) {

  /** So many more titrations are thought of. */
  private static final int MORE = 3;

  /**
   * Of all that could be titrated now, what would narrow the parts most: the sum of their variances
   * would be least. What nobody titrated before the change cannot tell what it changed.
   *
   * @return null where nothing would
   */
  static @Nullable Wanted among(List<Evidence> all, Change change, Evidence shifted) {
    double now = spread(all, change, shifted);
    return all.stream()
        .filter(evidence -> isTitratedFor(shifted, evidence))
        .filter(wanted -> wanted.results().get(0).day() <= change.day())
        .map(
            wanted -> {
              List<Evidence> more = new ArrayList<>(all);
              more.remove(wanted);
              Evidence continued = continued(wanted, change, shifted);
              more.add(continued);
              return new Rated(continued, spread(more, change, shifted));
            })
        .filter(rated -> rated.spread() < 0.9 * now)
        .min(Comparator.comparing(Rated::spread))
        .map(rated -> new Wanted(rated.evidence().kind(), titrant(rated.evidence())))
        .orElse(null);
  }

  private record Rated(Evidence evidence, double spread) {}

  private static @Nullable String titrant(Evidence evidence) {
    return last(evidence).titrants().keySet().stream().findFirst().orElse(null);
  }

  private static Evidence.Result last(Evidence evidence) {
    return evidence.results().get(evidence.results().size() - 1);
  }

  private static boolean isTitratedFor(Evidence shifted, Evidence evidence) {
    return switch (evidence.kind()) {
      case CHECK_STANDARD, BLANK, STANDARDISATION -> true;
      case CRUDE -> evidence.place().equals(shifted.place());
      case EARLIER_STANDARDISATION, WASHED, REMOVAL -> false;
    };
  }

  /** What was titrated, and some more at the end; check standards with what the stream takes. */
  private static Evidence continued(Evidence like, Change change, Evidence shifted) {
    Map<String, Integer> titrants = last(like).titrants();
    if (like.kind() == Evidence.Kind.CHECK_STANDARD && last(shifted).titrants().size() == 1) {
      titrants = last(shifted).titrants();
    } else if (like.kind() == Evidence.Kind.STANDARDISATION) {
      titrants = Evidence.Result.strengthOf(titrants.keySet().iterator().next());
    }
    List<Evidence.Result> results = new ArrayList<>(like.results());
    for (int i = 0; i < MORE; i++) {
      results.add(new Evidence.Result(change.last(), last(like).value(), titrants));
    }
    return new Evidence(like.kind(), like.place(), like.blankEffect(), results, like.sigma());
  }

  private static double spread(List<Evidence> all, Change change, Evidence shifted) {
    return Unknowns.estimate(all, change, shifted.place()).parts(shifted, 0).stream()
        .mapToDouble(part -> part.standardError() * part.standardError())
        .sum();
  }
}
