package org.sapotrace.attribution;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.sapotrace.attribution.Attribution.Part;
import org.sapotrace.attribution.Evidence.Place;

/*
 * Unknown are the move r of each titrant and l, how far off it was before, b of the blank, which all
 * share, and of each place the moves f of its feed and w of its wash; another line has one feed.
 * Every kind of evidence moved by D, a known combination of these, plus an error whose variance its
 * own scatter gives; so the unknowns are found by weighted least squares. What nobody measured stays
 * as unknown as it was: each unknown has a prior of mean 0 and a wide standard deviation, which is
 * one more equation. Lines other than the one in question have narrower priors, because what moves
 * on all of them at once is more likely what they share; on one line the same soap may come by all
 * places.
 *
 * Weighted least squares with prior equations: [1], section 3.1 (there: Bayesian linear regression).
 *
 * [1] A. Gelman and others, Bayesian Data Analysis, 3rd edition (2013), 14.8 (from memory).
 */
/**
 * What moved unseen behind the evidence, estimated.
 *
 * @param change when and how
 * @param moves what may have moved
 * @param values by how much each did
 * @param covariance of these
 * @param sumOfSquares of what they leave unexplained in all results, in units of their variances
 */
record Unknowns(
    Change change,
    List<Move> moves,
    RealVector values,
    RealMatrix covariance,
    double sumOfSquares) {

  /**
   * The day of the change was looked for where the stream in question moves most, which flatters
   * its shift; so the evidence of its place counts with a variance that much larger. By simulation.
   */
  private static final double SELECTED = 1.25;

  /** Weighted least squares with the prior equations. */
  static Unknowns estimate(List<Evidence> all, Change change, Place inQuestion) {
    List<Move> moves = moves(all, inQuestion);
    RealMatrix normal = MatrixUtils.createRealMatrix(moves.size(), moves.size());
    RealVector right = new ArrayRealVector(moves.size());
    double squares = 0;
    for (int i = 0; i < moves.size(); i++) {
      double prior = moves.get(i).prior();
      normal.setEntry(i, i, 1 / (prior * prior));
    }
    for (Evidence evidence : all) {
      Change.Shift shift = change.shiftOf(evidence);
      squares += shift.sumOfSquares();
      if (Double.isFinite(shift.variance())) {
        double selected = evidence.place().equals(inQuestion) ? SELECTED : 1;
        double weight = 1 / (shift.variance() * selected);
        RealVector effect = effect(moves, evidence, change, shift.estimate());
        normal = normal.add(effect.outerProduct(effect).scalarMultiply(weight));
        right = right.add(effect.mapMultiply(weight * shift.estimate()));
        squares += weight * shift.estimate() * shift.estimate();
      }
    }
    RealMatrix covariance = new LUDecomposition(normal).getSolver().getInverse();
    RealVector values = covariance.operate(right);
    return new Unknowns(change, moves, values, covariance, squares - right.dotProduct(values));
  }

  private static List<Move> moves(List<Evidence> all, Place inQuestion) {
    Set<Move> moves = new LinkedHashSet<>();
    moves.add(new Move.Blank());
    for (Evidence evidence : all) {
      for (String titrant : evidence.titrants()) {
        moves.add(new Move.Titrant(titrant));
        moves.add(new Move.Level(titrant));
      }
      Place place = evidence.place();
      if (!place.equals(Place.NONE)) {
        boolean isElsewhere = !place.line().equals(inQuestion.line());
        moves.add(isElsewhere ? Move.Feed.ofLine(place.line()) : new Move.Feed(place, false));
        moves.add(new Move.Wash(place, isElsewhere));
      }
    }
    return List.copyOf(moves);
  }

  private static RealVector effect(
      List<Move> moves, Evidence evidence, Change change, double moved) {
    return new ArrayRealVector(
        moves.stream().mapToDouble(move -> move.effectOn(evidence, change, moved)).toArray());
  }

  /** What each cause did to a stream that moved that far, the largest first. */
  List<Part> parts(Evidence stream, double moved) {
    RealVector effect = effect(moves, stream, change, moved);
    double total = effect.dotProduct(values);
    List<Part> parts = new ArrayList<>();
    for (Cause cause : Cause.values()) {
      RealVector own = of(cause, effect);
      if (own.getLInfNorm() > 0) {
        double part = own.dotProduct(values);
        double error = Math.sqrt(own.dotProduct(covariance.operate(own)));
        parts.add(new Part(cause, part, error, total == 0 ? 0 : part / total));
      }
    }
    parts.sort(Comparator.comparing((Part part) -> -Math.abs(part.estimate())));
    return parts;
  }

  /** Only the effects of one cause, such as of all titrants that a stream was titrated with. */
  private RealVector of(Cause cause, RealVector effect) {
    RealVector own = effect.copy();
    for (int i = 0; i < moves.size(); i++) {
      if (moves.get(i).cause() != cause) {
        own.setEntry(i, 0);
      }
    }
    return own;
  }
}
