package org.sapotrace.chemistry;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.sapotrace.chemistry.ErrorSource.Scope;
import org.sapotrace.measure.MonteCarlo;

/**
 * A figure as the mean over replicates of one formula, together with everything that can go wrong
 * in it: written once, for every way of propagating the errors.
 *
 * @param <R> a replicate
 */
final class ErrorModel<R> implements Calculation {

  // In standard uncertainties: wide enough that rounding does not count. What is left of curvature
  // is of the order of the fourth power of step and relative uncertainty.
  private static final double STEP = 0.1;

  // Trials times replicates, so that many replicates take no longer than two.
  private static final int MOST_REPLICATES = 20_000_000;

  /** What one replicate gives when errors are made. */
  interface Formula<R> {
    double value(R replicate, Errors errors);
  }

  private final List<R> replicates;
  private final Formula<R> formula;
  private final Map<ErrorSource, Double> degreesOfFreedom = new EnumMap<>(ErrorSource.class);

  ErrorModel(List<R> replicates, Formula<R> formula) {
    this.replicates = replicates;
    this.formula = formula;
  }

  /** Names sources that apply and whose standard uncertainties are taken as known. */
  ErrorModel<R> with(ErrorSource... sources) {
    for (ErrorSource each : sources) {
      degreesOfFreedom.put(each, Double.POSITIVE_INFINITY);
    }
    return this;
  }

  /** Names a source that applies. */
  ErrorModel<R> with(ErrorSource source, double itsDegreesOfFreedom) {
    degreesOfFreedom.put(source, itsDegreesOfFreedom);
    return this;
  }

  @Override
  public Determination determine() {
    ReplicateBudget<R> budget = new ReplicateBudget<>(replicates);
    degreesOfFreedom.forEach(
        (source, freedom) -> {
          switch (source.scope()) {
            case EACH -> budget.addIndependent(source.words(), each -> effect(each, source));
            case ALL -> budget.addCommon(source.words(), freedom, each -> effect(each, source));
          }
        });
    return budget.determine(this::value);
  }

  @Override
  public MonteCarlo propagate(long seed) {
    Errors errors = new Errors();
    return MonteCarlo.of(
        random -> trial(random, errors), seed, MOST_REPLICATES / replicates.size());
  }

  private double trial(SplittableRandom random, Errors errors) {
    draw(random, errors, Scope.ALL);
    double sum = 0;
    for (R each : replicates) {
      draw(random, errors, Scope.EACH);
      sum += formula.value(each, errors);
    }
    return sum / replicates.size();
  }

  private void draw(SplittableRandom random, Errors errors, Scope scope) {
    degreesOfFreedom.forEach(
        (source, freedom) -> {
          if (source.scope() == scope) {
            errors.make(source, source.draw(random, freedom));
          }
        });
  }

  /** What each replicate gives by itself. */
  List<Double> values() {
    return replicates.stream().map(this::value).toList();
  }

  private double value(R replicate) {
    return formula.value(replicate, new Errors());
  }

  /**
   * What one standard uncertainty of a source changes: (dy/dx) u(x), by central differences D over
   * a step h and half of it, extrapolated as (4 D(h/2) - D(h)) / 3.
   */
  private double effect(R replicate, ErrorSource source) {
    return (4 * difference(replicate, source, STEP / 2) - difference(replicate, source, STEP)) / 3;
  }

  private double difference(R replicate, ErrorSource source, double step) {
    return (valueWith(replicate, source, step) - valueWith(replicate, source, -step)) / (2 * step);
  }

  private double valueWith(R replicate, ErrorSource source, double error) {
    Errors errors = new Errors();
    errors.make(source, error);
    return formula.value(replicate, errors);
  }
}
