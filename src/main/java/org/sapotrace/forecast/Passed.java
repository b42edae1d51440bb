package org.sapotrace.forecast;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.UUID;
import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.washmodel.Throughput;

/**
 * Samples of a tower or a flush by what had gone through.
 *
 * @param counted how: in bed volumes where the latest sample says so, or else in litres
 * @param samples those that say so, in order; the others are left out, as nobody knows the bed
 */
record Passed(Throughput counted, List<Sample> samples) {

  // Of 95 % of what is found in nothing: L. A. Currie, Analytical Chemistry 40 (1968) 586 (from
  // memory).
  private static final double DECISION_FACTOR = 1.645;

  Passed {
    samples = List.copyOf(samples);
  }

  static Passed of(List<Sample> samples) {
    boolean isLatestInBedVolumes =
        !samples.isEmpty() && samples.get(samples.size() - 1).bedVolumes() != null;
    Throughput counted = isLatestInBedVolumes ? Throughput.BED_VOLUMES : Throughput.LITRES;
    return new Passed(
        counted, samples.stream().filter(sample -> volume(counted, sample) != null).toList());
  }

  private static @Nullable Double volume(Throughput counted, Sample sample) {
    return counted == Throughput.BED_VOLUMES ? sample.bedVolumes() : sample.litres();
  }

  double volume(Sample sample) {
    return Objects.requireNonNull(volume(counted, sample));
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
