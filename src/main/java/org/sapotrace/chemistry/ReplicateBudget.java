package org.sapotrace.chemistry;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Budget;
import org.sapotrace.measure.Contribution;

/**
 * Collects the budget of a mean over replicates (JCGM 100:2008, 5.1 and 5.2).
 *
 * <p>Each source is given by its effect on one replicate, (dy_i/dx) u(x), with its sign. What errs
 * anew in each replicate adds up as a root sum of squares, sqrt(sum e_i^2) / n. What errs alike in
 * all of them is fully correlated and adds up linearly, |sum e_i| / n.
 *
 * @param <R> a replicate
 */
final class ReplicateBudget<R> {

  private final List<R> replicates;
  private final List<Contribution> independent = new ArrayList<>();
  private final List<Contribution> common = new ArrayList<>();

  ReplicateBudget(List<R> replicates) {
    this.replicates = replicates;
  }

  /** Adds a source that errs anew in each replicate. */
  void addIndependent(String source, ToDoubleFunction<R> effect) {
    double sumOfSquares = effects(effect).map(each -> each * each).sum();
    independent.add(Contribution.of(source, Math.sqrt(sumOfSquares) / replicates.size()));
  }

  /**
   * Adds a source that errs anew in each replicate by as much.
   *
   * @param effect on one replicate
   * @param degreesOfFreedom of that standard uncertainty, which is the same one for all replicates
   */
  void addScatter(String source, double effect, double degreesOfFreedom) {
    double ofTheMean = effect / Math.sqrt((double) replicates.size());
    independent.add(new Contribution(source, ofTheMean, degreesOfFreedom));
  }

  /** Adds a source that errs alike in all replicates. */
  void addCommon(String source, double degreesOfFreedom, ToDoubleFunction<R> effect) {
    double sum = Math.abs(effects(effect).sum());
    common.add(new Contribution(source, sum / replicates.size(), degreesOfFreedom));
  }

  /** The mean of the replicates' values, with everything added so far as its budget. */
  Determination determine(ToDoubleFunction<R> value, @Nullable Detection detection) {
    List<Double> values = effects(value).boxed().toList();
    double mean = effects(value).sum() / replicates.size();
    List<Contribution> all = new ArrayList<>(independent);
    all.addAll(common);
    double shrinking =
        independent.stream()
            .mapToDouble(each -> each.standardUncertainty() * each.standardUncertainty())
            .sum();
    return new Determination(mean, values, new Budget(all), shrinking, detection);
  }

  private DoubleStream effects(ToDoubleFunction<R> effect) {
    return replicates.stream().mapToDouble(effect);
  }
}
