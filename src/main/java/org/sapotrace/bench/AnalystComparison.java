package org.sapotrace.bench;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.OwnReplicates.Determined;
import org.sapotrace.bench.PrecisionReport.AnalystCheck;
import org.sapotrace.bench.PrecisionReport.BetweenAnalysts;
import org.sapotrace.chemistry.IntermediatePrecision;
import org.sapotrace.chemistry.OutlierCheck;
import org.sapotrace.chemistry.ReplicateAgreement;

/**
 * Compares analysts by the samples that several of them titrated. A sample is the same if batch and
 * time of sampling are: a batch that is sampled again later has been washed or has settled since.
 */
final class AnalystComparison {

  private record Sample(String batch, Instant sampledAt) {}

  /**
   * What one analyst found in one sample.
   *
   * @param result the first where there are several
   */
  private record Found(String analyst, UUID result, List<Double> values) {
    double mean() {
      return values.stream().mapToDouble(each -> each).average().orElseThrow();
    }
  }

  private final Map<Sample, List<Found>> samples = new LinkedHashMap<>();
  private final PrecisionReview review;

  AnalystComparison(List<Determined> found, PrecisionReview review) {
    this.review = review;
    Map<Sample, TreeMap<String, Found>> bySample = new LinkedHashMap<>();
    for (Determined each : found) {
      if (each.analyst() != null) {
        bySample
            .computeIfAbsent(new Sample(each.batch(), each.sampledAt()), sample -> new TreeMap<>())
            .merge(
                each.analyst(),
                new Found(each.analyst(), each.result(), each.values()),
                AnalystComparison::together);
      }
    }
    bySample.forEach(
        (sample, byAnalyst) -> {
          if (byAnalyst.size() > 1) {
            samples.put(sample, List.copyOf(byAnalyst.values()));
          }
        });
  }

  private static Found together(Found one, Found more) {
    List<Double> values = new ArrayList<>(one.values());
    values.addAll(more.values());
    return new Found(one.analyst(), one.result(), values);
  }

  /** Null where no two analysts can be compared. */
  @Nullable BetweenAnalysts compare() {
    List<Found> all = samples.values().stream().flatMap(List::stream).toList();
    if (all.stream().allMatch(each -> each.values().size() == 1)) {
      review.advise(
          all.isEmpty()
              ? "Two analysts have to titrate the same sample to tell how far they differ: one result each, with the same batch and sampledAt."
              : "An analyst has to titrate a sample twice that another titrates too: single titrations do not tell analysts from repeatability.");
      return null;
    }
    IntermediatePrecision precision =
        IntermediatePrecision.of(
            samples.values().stream()
                .map(sample -> sample.stream().map(Found::values).toList())
                .toList());
    return new BetweenAnalysts(
        precision.standardDeviation(),
        precision.between(),
        precision.repeatability(),
        samples.size(),
        (int) all.stream().map(Found::analyst).distinct().count(),
        grubbs(precision.repeatability()));
  }

  private @Nullable AnalystCheck grubbs(double repeatability) {
    AnalystCheck clearest =
        samples.entrySet().stream()
            .map(sample -> check(sample.getKey(), sample.getValue(), repeatability))
            .filter(Objects::nonNull)
            .max(Comparator.comparing(check -> check.statistic() / check.outlierAbove()))
            .orElse(null);
    if (clearest == null) {
      review.advise(
          "Whether one analyst stands out shows on a sample that three titrated and found further apart than repeatability explains.");
    }
    return clearest;
  }

  private @Nullable AnalystCheck check(Sample sample, List<Found> analysts, double repeatability) {
    List<Double> means = analysts.stream().map(Found::mean).toList();
    int fewest = analysts.stream().mapToInt(each -> each.values().size()).min().orElseThrow();
    double range = Collections.max(means) - Collections.min(means);
    // Of three that lie close together, two of them by chance on one line of the scale, the third
    // would be an outlier however near.
    if (means.size() < 3
        || !(range
            > ReplicateAgreement.criticalRange(means.size(), repeatability / Math.sqrt(fewest)))) {
      return null;
    }
    OutlierCheck check = OutlierCheck.grubbs(means);
    Found farthest = analysts.get(check.index());
    if (check.finding() != OutlierCheck.Finding.CORRECT) {
      review.caution(
          "%s stands out on batch %s (result %s), %s by Grubbs' test: it counts, but look for the cause."
              .formatted(
                  farthest.analyst(), sample.batch(), farthest.result(), check.finding().id()));
    }
    return new AnalystCheck(
        farthest.analyst(),
        farthest.result(),
        check.statistic(),
        check.stragglerAbove(),
        check.outlierAbove(),
        check.finding());
  }
}
