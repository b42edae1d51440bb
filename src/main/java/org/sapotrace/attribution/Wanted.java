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
   * would be least.
   *
   * @return null where nothing would
   */
  static @Nullable Wanted among(List<Evidence> all, Change change, Evidence shifted) {
    double now = spread(all, change, shifted);
    return List.of(
            candidate(Evidence.Kind.CHECK_STANDARD, "", all, 0.03, 3.0),
            candidate(Evidence.Kind.BLANK, "", all, 0.01, 0),
            candidate(Evidence.Kind.STANDARDISATION, "", all, 0.005, 0),
            candidate(Evidence.Kind.CRUDE, shifted.line(), all, 0.1, 0.3))
        .stream()
        .map(
            wanted -> {
              List<Evidence> more = new ArrayList<>(all);
              more.add(settled(wanted, change));
              return new Rated(wanted, spread(more, change, shifted));
            })
        .filter(rated -> rated.spread() < 0.9 * now)
        .min(Comparator.comparing(Rated::spread))
        .map(rated -> new Wanted(rated.evidence().kind(), rated.evidence().line()))
        .orElse(null);
  }

  private record Rated(Evidence evidence, double spread) {}

  /** Titrations of a kind as they scatter on record, or else as they usually do. */
  private static Evidence candidate(
      Evidence.Kind kind, String line, List<Evidence> all, double usualSigma, double usualEffect) {
    return all.stream()
        .filter(evidence -> evidence.kind() == kind && evidence.line().equals(line))
        .findFirst()
        .orElse(
            new Evidence(kind, line, usualEffect, List.of(new Evidence.Result(0, 0)), usualSigma));
  }

  /** As many before the change as behind it. */
  private static Evidence settled(Evidence like, Change change) {
    List<Evidence.Result> results = new ArrayList<>();
    for (int i = 0; i < MORE; i++) {
      results.add(new Evidence.Result(change.day(), 0));
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
