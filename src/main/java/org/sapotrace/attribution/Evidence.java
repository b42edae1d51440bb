package org.sapotrace.attribution;

import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Results of one kind, which tell something about what moved.
 *
 * <p>Reported is y = (V - V0) c M 1000 / m. If the true normality is c e^(-r) and the true blank V0
 * + b, then y = S e^r + b k/m with k = c M 1000 and S what is there; for small changes ln y moves
 * by r + b k/(m y), and by what S moved.
 *
 * @param kind what was titrated
 * @param place whose feed and wash move it
 * @param blankEffect k/(m y), how much ln y moves for each mL of blank, in 1/mL, at least 0; of a
 *     removal, that of the outlet less that of the inlet; unused for blanks and standardisations
 * @param results in order of time, at least one
 * @param sigma standard deviation of a single one of these values while nothing moves, above 0
 */
public record Evidence(
    Kind kind, Place place, double blankEffect, List<Result> results, double sigma) {

  /** What was titrated, and what its value is. */
  public enum Kind {
    /** A standard of known soap; ln of what was found. */
    CHECK_STANDARD(0, 0, 1),
    /** Solvent and indicator alone; mL. */
    BLANK(0, 0, 0),
    /** A primary standard behind the change; ln of what a titrant is over what it is taken for. */
    STANDARDISATION(0, 0, 0),
    /** The same before the change, compared with a titrant that is right. */
    EARLIER_STANDARDISATION(0, 0, 0),
    /** Before the wash; ln of the soap. */
    CRUDE(1, 0, 1),
    /** After a wash whose crude was not titrated, or wherever else; ln of the soap. */
    WASHED(1, 1, 1),
    /** Both of one batch; ln(crude/washed). */
    REMOVAL(0, -1, -1);

    private final double feed;
    private final double wash;
    private final double blank;

    Kind(double feed, double wash, double blank) {
      this.feed = feed;
      this.wash = wash;
      this.blank = blank;
    }

    double feed() {
      return feed;
    }

    double wash() {
      return wash;
    }

    /** By how much the value moves for each mL of blank. */
    double blank(double blankEffect) {
      return this == BLANK ? 1 : blank * blankEffect;
    }
  }

  /**
   * Where on a line something was sampled. What is of one place shares a feed and a wash.
   *
   * @param line of the plant
   * @param name the place on it
   */
  public record Place(String line, String name) {

    /** What belongs to no line. */
    public static final Place NONE = new Place("", "");
  }

  /**
   * One result.
   *
   * @param day when it was sampled, in days on any clock
   * @param value finite
   * @param titrants by how much the value moves for what each titrant is off; empty for a value
   *     that no titrant moves
   */
  public record Result(double day, double value, Map<String, Integer> titrants) {

    public Result {
      titrants = Map.copyOf(titrants);
    }

    /** What was titrated with something: ln y moves by its r. */
    public static Map<String, Integer> titratedWith(String titrant) {
      return Map.of(titrant, 1);
    }

    /** What a titrant was found to be: ln of it moves by -r. */
    public static Map<String, Integer> strengthOf(String titrant) {
      return Map.of(titrant, -1);
    }

    /** What a titrant is compared with: one that is right. */
    public static Map<String, Integer> rightBeside(String titrant) {
      return Map.of(titrant, 0);
    }

    /** A logarithm of a ratio, in which a titrant that both share cancels. */
    public static Map<String, Integer> ratio(
        Map<String, Integer> before, Map<String, Integer> behind) {
      Map<String, Integer> all = new HashMap<>(before);
      behind.forEach((titrant, moves) -> all.merge(titrant, -moves, Integer::sum));
      all.values().removeIf(moves -> moves == 0);
      return all;
    }
  }

  /** All titrants that move some of its results. */
  Set<String> titrants() {
    Set<String> all = new LinkedHashSet<>();
    results.forEach(result -> all.addAll(result.titrants().keySet()));
    return all;
  }

  /** Whether both are of one place, or one of them belongs to none. */
  boolean isNotOfAnotherPlaceThan(Evidence other) {
    return place.equals(Place.NONE) || other.place.equals(Place.NONE) || place.equals(other.place);
  }

  /**
   * How much the value moves for each mL of blank where it moved that far. From y1 to y2, ln y
   * moves by k/m over their logarithmic mean, (y2 - y1)/ln(y2/y1), so that a blank that shifts far
   * is not taken for something else.
   */
  double blankEffect(double moved) {
    double growth = kind == Kind.REMOVAL ? -moved : moved;
    return Math.abs(growth) < 1e-6 ? blankEffect : blankEffect * growth / Math.expm1(growth);
  }

  /**
   * Checks the evidence.
   *
   * @throws IllegalArgumentException if there is none, or a number is none
   */
  public Evidence {
    results = List.copyOf(results);
    boolean isFinite =
        results.stream().allMatch(r -> Double.isFinite(r.day()) && Double.isFinite(r.value()));
    if (!(isFinite
        && !results.isEmpty()
        && sigma > 0
        && Double.isFinite(sigma)
        && Double.isFinite(blankEffect))) {
      throw new IllegalArgumentException(
          "Evidence needs results that are numbers, and how much they scatter.");
    }
  }
}
