package org.sapotrace.chemistry;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.ErrorSource.Scope;
import org.sapotrace.measure.Budget;
import org.sapotrace.measure.Contribution;
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

  // What makes the two laws of propagation differ by some 3 % of the expanded uncertainty: a
  // formula
  // that bends by so much within two standard uncertainties of a source; a rectangular source with
  // most of the variance (alone it makes 16 %); a source of few degrees of freedom, as Student's t
  // has tails that Welch-Satterthwaite knows nothing of, however small its share.
  private static final double NOTABLE_BEND = 0.025;
  private static final double NOTABLE_SHARE = 0.7;
  private static final double NOTABLE_SHARE_OF_FEW = 0.001;
  private static final double FEW = 10;

  /** What one replicate gives when errors are made. */
  interface Formula<R> {
    double value(R replicate, Errors errors);
  }

  private final List<R> replicates;
  private final Formula<R> formula;
  private final Map<ErrorSource, Double> degreesOfFreedom = new EnumMap<>(ErrorSource.class);
  private @Nullable Repeatability repeatability;
  private @Nullable Detection detection;

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

  /**
   * Says how far replicates are known to scatter. Where s_r is more than what errs anew in each
   * replicate comes to, s_each (reading, end points and mass), something else scatters too, and the
   * budget gains sqrt(s_r^2 - s_each^2) for it. Where it is less, the assumptions stand: a bench
   * that repeats its own readings well has not shown that its scale and its end point are better
   * than they can be, only that it errs alike each time.
   *
   * @param known s_r; null where it is not known
   */
  ErrorModel<R> scatteringBy(@Nullable Repeatability known) {
    repeatability = known;
    return this;
  }

  /** Says from where on a figure can be told from a blank; null where that is not known. */
  ErrorModel<R> detecting(@Nullable Detection limits) {
    detection = limits;
    return this;
  }

  @Override
  public Determination determine() {
    ReplicateBudget<R> budget = budget();
    double rest = unexplained(budget);
    if (repeatability != null && rest > 0) {
      budget.addScatter(ErrorSource.REPEATABILITY.words(), rest, repeatability.degreesOfFreedom());
    }
    return budget.determine(this::value, detection);
  }

  /** What is assumed to go wrong, before it is compared with the repeatability that is known. */
  private ReplicateBudget<R> budget() {
    ReplicateBudget<R> budget = new ReplicateBudget<>(replicates);
    degreesOfFreedom.forEach(
        (source, freedom) -> {
          switch (source.scope()) {
            case EACH -> budget.addIndependent(source.words(), each -> effect(each, source));
            case ALL -> budget.addCommon(source.words(), freedom, each -> effect(each, source));
          }
        });
    return budget;
  }

  /** sqrt(s_r^2 - s_each^2) of one replicate, or 0. */
  private double unexplained(ReplicateBudget<R> budget) {
    if (repeatability == null) {
      return 0;
    }
    Determination assumed = budget.determine(this::value, detection);
    double known = repeatability.at(assumed.value());
    double explained = ReplicateAgreement.repeatability(assumed);
    return Math.sqrt(Math.max(0, known * known - explained * explained));
  }

  @Override
  public MonteCarlo propagate(long seed, int most) {
    Errors errors = new Errors();
    double scatter = unexplained(budget()) / Math.sqrt((double) replicates.size());
    return MonteCarlo.of(
        random -> trial(random, errors, scatter),
        seed,
        Math.min(most, MOST_REPLICATES / replicates.size()));
  }

  @Override
  public boolean needsDistributions() {
    Budget budget = determine().budget();
    double bend = degreesOfFreedom.keySet().stream().mapToDouble(this::bend).sum();
    return !(bend <= NOTABLE_BEND * budget.expandedUncertainty())
        || budget.contributions().stream().anyMatch(each -> isNotable(each, budget.share(each)));
  }

  /**
   * How far the mean is from halfway between what it is two standard uncertainties to each side.
   */
  private double bend(ErrorSource source) {
    double sum =
        replicates.stream()
            .mapToDouble(
                each ->
                    (valueWith(each, source, 2) + valueWith(each, source, -2)) / 2 - value(each))
            .sum();
    return Math.abs(sum) / replicates.size();
  }

  private boolean isNotable(Contribution part, double share) {
    boolean isRectangular =
        degreesOfFreedom.keySet().stream()
            .anyMatch(each -> each.isRectangular() && each.words().equals(part.source()));
    return (part.degreesOfFreedom() < FEW && share > NOTABLE_SHARE_OF_FEW)
        || (isRectangular && share > NOTABLE_SHARE);
  }

  private double trial(SplittableRandom random, Errors errors, double scatter) {
    draw(random, errors, Scope.ALL);
    double sum = 0;
    for (R each : replicates) {
      draw(random, errors, Scope.EACH);
      sum += formula.value(each, errors);
    }
    double mean = sum / replicates.size();
    // The replicates scatter independently, but one and the same s_r is behind them all: so the
    // mean has Student's t, and not the mean of as many of them (JCGM 101:2008, 6.4.9.2).
    return repeatability == null || scatter == 0
        ? mean
        : mean + scatter * ErrorSource.REPEATABILITY.draw(random, repeatability.degreesOfFreedom());
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
