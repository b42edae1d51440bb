package org.sapotrace.forecast;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.UUID;
import org.hipparchus.stat.StatUtils;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.washmodel.Throughput;

/**
 * Samples of a tower or a flush by what had gone through.
 *
 * @param counted how
 * @param volumes what had gone through by each of them, as counted, by result
 * @param samples those of which that is known, in order
 * @param notes what has to be said of the others
 */
record Passed(
    Throughput counted, Map<UUID, Double> volumes, List<Sample> samples, List<String> notes) {

  // Of 95 % of what is found in nothing: L. A. Currie, Analytical Chemistry 40 (1968) 586 (from
  // memory).
  private static final double DECISION_FACTOR = 1.645;

  Passed {
    samples = List.copyOf(samples);
    notes = List.copyOf(notes);
  }

  /**
   * Samples by what had gone through.
   *
   * @param samples that say it, in order
   */
  static Passed of(List<Sample> samples) {
    Counting counting = Counting.of(samples);
    Map<UUID, Double> volumes = counting.volumes();
    return new Passed(
        counting.counted(),
        volumes,
        samples.stream().filter(sample -> volumes.containsKey(sample.result())).toList(),
        counting.notes());
  }

  double volume(Sample sample) {
    return Objects.requireNonNull(volumes.get(sample.result()));
  }

  Sample last() {
    return samples.get(samples.size() - 1);
  }

  List<UUID> evidence() {
    return samples.stream().map(Sample::result).toList();
  }

  /** Whether blanks tell the limit of detection. */
  boolean isDetectionKnown() {
    return samples.stream().anyMatch(sample -> sample.detectionLimit() != null);
  }

  /**
   * What can be told from nothing, in mg/kg: the median of the limits of detection, or else 1.645
   * times the standard uncertainty of the least result, which is next to nothing; empty for
   * neither.
   */
  OptionalDouble detection() {
    double[] known =
        samples.stream()
            .map(Sample::detectionLimit)
            .filter(Objects::nonNull)
            .mapToDouble(Double::doubleValue)
            .toArray();
    double limit = known.length > 0 ? StatUtils.percentile(known, 50) : ofTheLeast();
    return limit > 0 ? OptionalDouble.of(limit) : OptionalDouble.empty();
  }

  private double ofTheLeast() {
    return samples.stream()
        .filter(sample -> sample.standardUncertainty() != null)
        .min(Comparator.comparingDouble(Sample::value))
        .map(Sample::standardUncertainty)
        .map(u -> DECISION_FACTOR * u)
        .orElse(0.0);
  }

  /** At how many different volumes some samples lie. */
  long volumes(List<Sample> some) {
    return some.stream().mapToDouble(this::volume).distinct().count();
  }
}
