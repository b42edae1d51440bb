package org.sapotrace.detection;

import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.stream.Stream;
import org.sapotrace.attribution.Cause;

/** How drifts were seen on many plants. */
record Summary(List<Detection> plants) {

  static Summary of(
      SimulatedLine.Spreads spreads, Drift drift, Watching watching, int plants, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    return new Summary(
        Stream.generate(() -> Detection.of(spreads, drift, watching, random))
            .limit(plants)
            .toList());
  }

  /** All of their plants taken together. */
  static Summary of(List<Summary> summaries) {
    return new Summary(summaries.stream().flatMap(one -> one.plants.stream()).toList());
  }

  /** The warning that such a part of the drifts had at most, in batches. */
  int warning(double quantile) {
    return quantile(Detection::warning, quantile);
  }

  int medianFailure() {
    return quantile(Detection::failure, 0.5);
  }

  private int quantile(ToIntFunction<Detection> figure, double quantile) {
    int[] sorted = plants.stream().mapToInt(figure).sorted().toArray();
    return sorted[(int) (quantile * (sorted.length - 1))];
  }

  /** The part of the drifts that no signal showed before the first failure. */
  double missed() {
    return plants.stream().filter(Detection::missed).count() / (double) plants.size();
  }

  /** The part of the plants in which the true cause was named. */
  double right(Detection.Asked asked) {
    return share(asked, Detection::cause);
  }

  double undecided(Detection.Asked asked) {
    return share(asked, plant -> Cause.UNDECIDED);
  }

  /** The part in which another cause was named. */
  double wrong(Detection.Asked asked) {
    return Math.max(0, 1 - right(asked) - undecided(asked));
  }

  private double share(Detection.Asked asked, Function<Detection, Cause> cause) {
    long asking = plants.stream().filter(plant -> plant.causes().containsKey(asked)).count();
    return plants.stream().filter(plant -> plant.causes().get(asked) == cause.apply(plant)).count()
        / (double) asking;
  }
}
