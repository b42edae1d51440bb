package org.sapotrace.bench;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.OutlierCheck;

/**
 * How precise the titrations of a stream are. Whatever is null has a sentence in the advice that
 * says what is missing.
 *
 * @param from when the first sample looked at was taken; null where there is none
 * @param to when the last sample looked at was taken; null where there is none
 * @param determinations how many were looked at
 * @param repeatability between titrations of a sample by one analyst
 * @param analysts those who said that they titrated, by their names
 * @param reproducibility between titrations of a sample by different analysts: intermediate
 *     precision in the sense of ISO 5725-3, as it is all one bench
 * @param measurementShare how much of the chart's scatter is the measurement's
 * @param advice what would tell more, or make it better
 * @param cautions what whoever relies on it should know
 */
public record PrecisionReport(
    @Nullable Instant from,
    @Nullable Instant to,
    int determinations,
    @Nullable OfTitrations repeatability,
    List<OfAnalyst> analysts,
    @Nullable BetweenAnalysts reproducibility,
    @Nullable MeasurementShare measurementShare,
    List<String> advice,
    List<String> cautions) {

  public PrecisionReport {
    analysts = List.copyOf(analysts);
    advice = List.copyOf(advice);
    cautions = List.copyOf(cautions);
  }

  /**
   * The repeatability of single titrations.
   *
   * @param standardDeviation s_r at the level, in the unit of the stream
   * @param level the mean of the sets' means
   * @param relative s_r in per cent of any level, where it grows with the level; null where not
   * @param sets how many sets of replicates it is pooled from
   * @param criticalRangeOfTwo what two titrations of a sample at that level differ by more than 5
   *     times in 100
   */
  public record OfTitrations(
      double standardDeviation,
      double level,
      @Nullable Double relative,
      int degreesOfFreedom,
      int sets,
      double criticalRangeOfTwo,
      @Nullable LevelDependence levelDependence,
      @Nullable SetCheck cochran) {}

  /** Whether scatter depends on the level. */
  public record LevelDependence(double pValue, boolean dependsOnLevel) {}

  /** Cochran's test of the result whose replicates scatter most. */
  public record SetCheck(
      UUID result,
      double statistic,
      double stragglerAbove,
      double outlierAbove,
      OutlierCheck.Finding finding) {}

  /**
   * What one analyst titrated.
   *
   * @param determinations how many
   */
  public record OfAnalyst(
      String analyst, int determinations, @Nullable OwnRepeatability repeatability) {}

  /**
   * The repeatability of one analyst, of all replicates.
   *
   * @param standardDeviation at the level of the whole stream, in its unit
   */
  public record OwnRepeatability(double standardDeviation, int degreesOfFreedom) {}

  /**
   * The precision between analysts.
   *
   * @param standardDeviation between single titrations by any of them, in the unit of the stream
   * @param between beyond what repeatability explains
   * @param repeatability of the samples that it comes from
   * @param samples how many
   * @param analysts how many took part
   */
  public record BetweenAnalysts(
      double standardDeviation,
      double between,
      double repeatability,
      int samples,
      int analysts,
      @Nullable AnalystCheck grubbs) {}

  /** Grubbs' test of the analyst farthest from the others, on the sample where it shows most. */
  public record AnalystCheck(
      String analyst,
      UUID result,
      double statistic,
      double stragglerAbove,
      double outlierAbove,
      OutlierCheck.Finding finding) {}

  /**
   * The measurement's share of a chart's scatter.
   *
   * @param shareOfVariance the measurement's variance by that of the chart; may exceed 1
   * @param measurementStandardDeviation of a determination, in the unit of the stream
   * @param chartSigma in the unit of the stream
   * @param limitsRevision whose sigma it is
   */
  public record MeasurementShare(
      double shareOfVariance,
      double measurementStandardDeviation,
      double chartSigma,
      int limitsRevision) {}
}
