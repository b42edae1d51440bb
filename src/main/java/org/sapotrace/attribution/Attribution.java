package org.sapotrace.attribution;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.jspecify.annotations.Nullable;

/*
 * Unknown are the move r of the titrant and b of the blank, which all share, and of each line the
 * moves f of its feed and w of its wash. Every kind of evidence moved by D, a known combination of
 * these, plus an error whose variance its own scatter gives; so the unknowns are found by weighted
 * least squares. What nobody measured stays as unknown as it was: each unknown has a prior of mean 0
 * and a wide standard deviation, which is one more equation. Lines other than the one in question
 * have narrower priors, because what moves on all of them at once is more likely what they share.
 *
 * Weighted least squares with prior equations: [1], section 3.1 (there: Bayesian linear regression).
 *
 * [1] A. Gelman and others, Bayesian Data Analysis, 3rd edition (2013), 14.8 (from memory).
 */
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
  private static final double WIDE = 0.7;
  private static final double NARROW = 0.15;
  private static final double TITRANT = 0.3;
  private static final double BLANK_ML = 0.5;

  /**
   * What one cause did.
   *
   * @param estimate of its part of the shift, in ln of the stream's value
   * @param standardError of the estimate
   * @param share of the sum of all parts, from the estimates; may be negative
   */
  public record Part(Cause cause, double estimate, double standardError, double share) {

    /** How clearly it is there. */
    double z() {
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
   * @param all the evidence, each result in it once: the crude and the removal stand for the washed
   *     fuel where both are known, else the stream that signalled is among it
   * @param measurement standard uncertainty of a single result by measuring alone, in ln
   */
  public static Attribution of(
      Evidence shifted, int quiet, List<Evidence> all, double measurement) {
    Change change = Change.in(shifted, quiet);
    Estimate estimate = Estimate.of(all, change, shifted.line());
    Change.Shift moved = change.shiftOf(shifted);
    List<Part> parts = estimate.parts(shifted);
    double noise = measurement * Math.sqrt(moved.variance()) / shifted.sigma();
    Cause cause =
        Math.abs(moved.estimate()) <= 2 * noise ? Cause.MEASUREMENT : named(parts);
    return new Attribution(
        change,
        moved.estimate(),
        parts,
        cause,
        cause == Cause.UNDECIDED ? Wanted.among(all, change, shifted) : null);
  }

  private static Cause named(List<Part> parts) {
    Part largest = parts.get(0);
    boolean isClear = Math.abs(largest.z()) > CLEAR && largest.share() > MOST;
    boolean isAlone = parts.stream().skip(1).allMatch(part -> Math.abs(part.z()) <= CLEAR);
    return isClear && isAlone ? largest.cause() : Cause.UNDECIDED;
  }

  /**
   * All unknowns with their covariance.
   *
   * @param columns where each unknown stands
   */
  record Estimate(Map<String, Integer> columns, RealVector values, RealMatrix covariance) {

    static Estimate of(List<Evidence> all, Change change, String line) {
      Map<String, Integer> columns = new LinkedHashMap<>();
      columns.put("r", 0);
      columns.put("b", 1);
      for (Evidence evidence : all) {
        if (evidence.kind().feed() != 0 || evidence.kind().wash() != 0) {
          columns.putIfAbsent("f " + evidence.line(), columns.size());
          columns.putIfAbsent("w " + evidence.line(), columns.size());
        }
      }
      int n = columns.size();
      RealMatrix normal = MatrixUtils.createRealMatrix(n, n);
      RealVector right = new ArrayRealVector(n);
      columns.forEach(
          (name, i) -> {
            double prior =
                name.equals("r")
                    ? TITRANT
                    : name.equals("b") ? BLANK_ML : name.endsWith(" " + line) ? WIDE : NARROW;
            normal.addToEntry(i, i, 1 / (prior * prior));
          });
      for (Evidence evidence : all) {
        Change.Shift shift = change.shiftOf(evidence);
        if (Double.isFinite(shift.variance())) {
          RealVector effect = effect(evidence, columns);
          RealMatrix square = effect.outerProduct(effect).scalarMultiply(1 / shift.variance());
          normal.setSubMatrix(normal.add(square).getData(), 0, 0);
          right.combineToSelf(1, shift.estimate() / shift.variance(), effect);
        }
      }
      RealMatrix covariance = new LUDecomposition(normal).getSolver().getInverse();
      return new Estimate(columns, covariance.operate(right), covariance);
    }

    static RealVector effect(Evidence evidence, Map<String, Integer> columns) {
      RealVector effect = new ArrayRealVector(columns.size());
      effect.setEntry(0, evidence.kind().titrant());
      effect.setEntry(1, evidence.kind().blank(evidence.blankEffect()));
      Integer feed = columns.get("f " + evidence.line());
      Integer wash = columns.get("w " + evidence.line());
      if (feed != null && wash != null) {
        effect.setEntry(feed, evidence.kind().feed());
        effect.setEntry(wash, evidence.kind().wash());
      }
      return effect;
    }

    /** What each cause did to that stream, the largest first. */
    List<Part> parts(Evidence stream) {
      RealVector effect = effect(stream, columns);
      Map<Cause, Integer> places = new LinkedHashMap<>();
      places.put(Cause.TITRANT, 0);
      places.put(Cause.BLANK, 1);
      places.put(Cause.FEED, columns.getOrDefault("f " + stream.line(), -1));
      places.put(Cause.WASH, columns.getOrDefault("w " + stream.line(), -1));
      double total = effect.dotProduct(values);
      List<Part> parts = new ArrayList<>();
      places.forEach(
          (cause, i) -> {
            if (i >= 0 && effect.getEntry(i) != 0) {
              double part = effect.getEntry(i) * values.getEntry(i);
              double error = Math.abs(effect.getEntry(i)) * Math.sqrt(covariance.getEntry(i, i));
              parts.add(new Part(cause, part, error, part / total));
            }
          });
      parts.sort(Comparator.comparing((Part part) -> -Math.abs(part.estimate())));
      return parts;
    }
  }
}
