package org.sapotrace.attribution;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The titration that would tell most about what is undecided.
 *
 * @param kind what to titrate
 * @param line on which line; empty where it belongs to none
 */
public record Wanted(Evidence.Kind kind, String line) {

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
              more.add(titratedOn(wanted, change));
              return new Rated(wanted, spread(more, change, shifted));
            })
        .filter(rated -> rated.spread() < 0.9 * now)
        .min(Comparator.comparing(Rated::spread))
        .map(rated -> new Wanted(rated.evidence().kind(), rated.evidence().line()))
        .orElse(null);
  }

  private record Rated(Evidence evidence, double spread) {}

  private static boolean isTitratedFor(Evidence shifted, Evidence evidence) {
    return switch (evidence.kind()) {
      case CHECK_STANDARD, BLANK, STANDARDISATION -> true;
      case CRUDE -> evidence.line().equals(shifted.line());
      case WASHED, REMOVAL -> false;
    };
  }

  /** What was titrated, and some more at the end. */
  private static Evidence titratedOn(Evidence like, Change change) {
    List<Evidence.Result> results = new ArrayList<>(like.results());
    for (int i = 0; i < MORE; i++) {
      results.add(new Evidence.Result(change.last(), 0));
    }
    return new Evidence(like.kind(), like.line(), like.blankEffect(), results, like.sigma());
  }

  private static double spread(List<Evidence> all, Change change, Evidence shifted) {
    return Unknowns.estimate(all, change, shifted.line()).parts(shifted, 0).stream()
        .mapToDouble(part -> part.standardError() * part.standardError())
        .sum();
  }
}
