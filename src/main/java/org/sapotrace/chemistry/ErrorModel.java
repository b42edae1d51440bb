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

  // In standard uncertainties. The formulas are smooth: the error of a central difference is of the
  // order of its square times the square of the relative uncertainty.
  private static final double STEP = 1e-3;

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
    return MonteCarlo.of(random -> trial(random, errors), seed);
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

  /** What one standard uncertainty of a source changes: (dy/dx) u(x), by a central difference. */
  private double effect(R replicate, ErrorSource source) {
    return (valueWith(replicate, source, STEP) - valueWith(replicate, source, -STEP)) / (2 * STEP);
  }

  private double valueWith(R replicate, ErrorSource source, double error) {
    Errors errors = new Errors();
    errors.make(source, error);
    return formula.value(replicate, errors);
  }
}
