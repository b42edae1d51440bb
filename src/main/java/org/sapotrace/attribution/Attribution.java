package org.sapotrace.attribution;

import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a shift is made of.
 *
 * @param change when and how it began
 * @param shift by how much the stream in question moved, in ln of its value
 * @param parts what each cause did of it, the largest first
 * @param cause the one that the evidence names
 * @param wanted what titration would decide; null where it is decided, or none would
 */
public record Attribution(
    Change change, double shift, List<Part> parts, Cause cause, @Nullable Wanted wanted) {

  /** A part is clearly there beyond so many standard errors. */
  public static final double CLEAR = 3;

  private static final double MOST = 0.5;

  /**
   * What one cause did.
   *
   * @param estimate of its part of the shift, in ln of the stream's value
   * @param standardError of the estimate
   * @param share of the sum of all parts, from the estimates; may be negative
   */
  public record Part(Cause cause, double estimate, double standardError, double share) {

    /** How clearly it is there: how many standard errors from nothing. */
    public double z() {
      return estimate / standardError;
    }
  }

  public Attribution {
    parts = List.copyOf(parts);
  }

  /**
   * Attributes the shift of a stream.
   *
   * @param shifted the stream that signalled
   * @param quiet how many of its first results had surely not moved, at least 1
   * @param all the evidence, nothing in it twice: the crude and the removal stand for the washed
   *     fuel where both are known, else the stream that signalled is among it
   * @param measurement standard uncertainty of a single result by measuring alone, in ln
   */
  public static Attribution of(
      Evidence shifted, int quiet, List<Evidence> all, double measurement) {
    Change change = likeliest(Change.credible(shifted, quiet), shifted, all);
    Unknowns unknowns = Unknowns.estimate(all, change, shifted.place());
    Change.Shift moved = change.shiftOf(shifted);
    List<Part> parts = unknowns.parts(shifted, moved.estimate());
    double noise = measurement * Math.sqrt(moved.variance()) / shifted.sigma();
    Cause cause = Math.abs(moved.estimate()) <= 2 * noise ? Cause.MEASUREMENT : named(parts, moved);
    return new Attribution(
        change,
        moved.estimate(),
        parts,
        cause,
        cause == Cause.UNDECIDED ? Wanted.among(all, change, shifted) : null);
  }

  /**
   * Of the changes that the stream itself makes credible, the one under which all that moves with
   * it is likeliest: a titrant is dated by its check standards as well. What other places do has
   * its own dates.
   */
  private static Change likeliest(List<Change> credible, Evidence shifted, List<Evidence> all) {
    List<Evidence> near = all.stream().filter(shifted::isNotOfAnotherPlaceThan).toList();
    return credible.stream()
        .min(
            Comparator.comparing(
                change -> Unknowns.estimate(near, change, shifted.place()).sumOfSquares()))
        .orElseThrow();
  }

  /** What is most of all parts, and of what was measured, which they may leave unexplained. */
  private static Cause named(List<Part> parts, Change.Shift moved) {
    if (parts.isEmpty()) {
      return Cause.UNDECIDED;
    }
    Part largest = parts.get(0);
    boolean isMost = largest.share() > MOST && largest.estimate() / moved.estimate() > MOST;
    boolean isClear = Math.abs(largest.z()) > CLEAR && isMost;
    boolean isAlone = parts.stream().skip(1).allMatch(part -> Math.abs(part.z()) <= CLEAR);
    return isClear && isAlone ? largest.cause() : Cause.UNDECIDED;
  }
}
