package org.sapotrace.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.OwnReplicates.Determined;
import org.sapotrace.bench.PrecisionReport.LevelDependence;
import org.sapotrace.bench.PrecisionReport.MeasurementShare;
import org.sapotrace.bench.PrecisionReport.OfAnalyst;
import org.sapotrace.bench.PrecisionReport.OfTitrations;
import org.sapotrace.bench.PrecisionReport.OwnRepeatability;
import org.sapotrace.bench.PrecisionReport.SetCheck;
import org.sapotrace.chemistry.OutlierCheck;
import org.sapotrace.chemistry.PrecisionStudy;
import org.sapotrace.chemistry.Repeatability;
import org.sapotrace.chemistry.ReplicateAgreement;
import org.sapotrace.measure.Rounding;
import org.sapotrace.monitoring.LimitsRevision;

/** Looks at the titrations of a stream, and gathers what there is to say of their precision. */
final class PrecisionReview {

  private final List<Determined> found;
  private final List<Determined> sets;
  private final @Nullable LimitsRevision limits;
  private final String unit;
  private final Repeatability.@Nullable Pooled pooled;
  private final double level;
  private final List<String> advice = new ArrayList<>();
  private final List<String> cautions = new ArrayList<>();

  /**
   * A review.
   *
   * @param found in the order of sampling
   * @param limits by which the last of them is judged; null for none
   */
  PrecisionReview(List<Determined> found, @Nullable LimitsRevision limits, String unit) {
    this.found = found;
    this.sets = found.stream().filter(each -> each.values().size() > 1).toList();
    this.limits = limits;
    this.unit = unit;
    this.pooled =
        sets.isEmpty()
            ? null
            : Repeatability.pooled(sets.stream().map(Determined::values).toList());
    this.level = sets.stream().mapToDouble(PrecisionReview::mean).average().orElse(0);
  }

  void advise(String sentence) {
    advice.add(sentence);
  }

  void caution(String sentence) {
    cautions.add(sentence);
  }

  PrecisionReport report() {
    OfTitrations repeatability = repeatability();
    List<OfAnalyst> analysts = analysts();
    return new PrecisionReport(
        found.isEmpty() ? null : found.get(0).sampledAt(),
        found.isEmpty() ? null : found.get(found.size() - 1).sampledAt(),
        found.size(),
        repeatability,
        analysts,
        new AnalystComparison(found, this).compare(),
        measurementShare(),
        advice,
        cautions);
  }

  private @Nullable OfTitrations repeatability() {
    if (pooled == null) {
      advise(
          "Nothing tells how far titrations scatter: titrate a sample twice or more, and record that as one result.");
      return null;
    }
    if (pooled.sets() < ReplicateHistory.FEWEST_SETS) {
      advise(
          "Replicates are compared by the budget of their own titration until %d sets tell the stream's repeatability."
              .formatted(ReplicateHistory.FEWEST_SETS));
    }
    pooled.leftOut().forEach(this::tellLeftOut);
    Repeatability own = pooled.repeatability();
    return new OfTitrations(
        own.at(level),
        level,
        own.isProportional() ? (Double) (100 * own.standardDeviation()) : null,
        own.degreesOfFreedom(),
        pooled.sets(),
        ReplicateAgreement.criticalRange(2, own.at(level)),
        levelDependence(pooled),
        cochran(pooled));
  }

  private @Nullable LevelDependence levelDependence(Repeatability.Pooled of) {
    Double pValue = of.levelDependence();
    if (pValue == null) {
      advise(
          "Whether the scatter depends on the level shows with %d sets of replicates."
              .formatted(PrecisionStudy.FEWEST_LEVELS));
      return null;
    }
    boolean depends = pValue < PrecisionStudy.DEPENDS_BELOW;
    if (of.repeatability().isProportional()) {
      caution(
          "The scatter grows with the level, by %s %% of it: it is told for a level of %s %s."
              .formatted(
                  Rounding.of(100 * of.repeatability().standardDeviation()),
                  Rounding.of(level),
                  unit));
    } else if (depends) {
      caution(
          "The scatter depends on the level, but not in proportion to it: one standard deviation fits no level well.");
    }
    return new LevelDependence(pValue, depends);
  }

  private @Nullable SetCheck cochran(Repeatability.Pooled of) {
    OutlierCheck largest = of.largest();
    if (largest == null) {
      advise(
          sets.size() == 1
              ? "Whether one set of replicates stands out shows beside a second one."
              : "All replicates of a sample came out equal, so none stands out: read the scale in finer steps.");
      return null;
    }
    Determined set = sets.get(largest.index());
    if (of.leftOut().isEmpty() && largest.finding() != OutlierCheck.Finding.CORRECT) {
      caution(
          "The replicates of batch %s (result %s) stand out, %s by Cochran's test: they count, but look for the cause."
              .formatted(set.batch(), set.result(), largest.finding().id()));
    }
    return new SetCheck(
        set.result(),
        largest.statistic(),
        largest.stragglerAbove(),
        largest.outlierAbove(),
        largest.finding());
  }

  private void tellLeftOut(OutlierCheck outlier) {
    Determined set = sets.get(outlier.index());
    caution(
        "The replicates of batch %s (result %s) stand out, outlier by Cochran's test, and do not count towards the repeatability: look for the cause, and correct the result."
            .formatted(set.batch(), set.result()));
  }

  private List<OfAnalyst> analysts() {
    TreeMap<String, List<Determined>> byName =
        found.stream()
            .filter(each -> each.analyst() != null)
            .collect(
                Collectors.groupingBy(
                    each -> Objects.requireNonNull(each.analyst()),
                    TreeMap::new,
                    Collectors.toList()));
    int unnamed = found.size() - byName.values().stream().mapToInt(List::size).sum();
    if (unnamed > 0) {
      caution(
          "Nobody is named as analyst in %d of the %d determinations, which count for none of them."
              .formatted(unnamed, found.size()));
    }
    return byName.entrySet().stream().map(each -> analyst(each.getKey(), each.getValue())).toList();
  }

  private OfAnalyst analyst(String name, List<Determined> titrated) {
    List<List<Double>> own =
        titrated.stream().map(Determined::values).filter(each -> each.size() > 1).toList();
    if (pooled == null || own.isEmpty()) {
      advise(
          "Analyst %s titrated every sample once, which tells no repeatability.".formatted(name));
      return new OfAnalyst(name, titrated.size(), null);
    }
    Repeatability all = Repeatability.ofAll(own, pooled.repeatability().isProportional());
    return new OfAnalyst(
        name, titrated.size(), new OwnRepeatability(all.at(level), all.degreesOfFreedom()));
  }

  /**
   * s_r^2 at the centre line, times the mean of 1/n over the determinations with n replicates each,
   * by the variance of the chart.
   */
  private @Nullable MeasurementShare measurementShare() {
    if (pooled == null || limits == null) {
      advise(
          pooled == null
              ? "The measurement's share of the chart's sigma shows once there are replicates."
              : "The measurement's share of the chart's sigma shows once there are control limits.");
      return null;
    }
    double centre =
        Objects.requireNonNullElse(
            limits.shown(limits.limits().centre()), limits.limits().centre());
    double single = pooled.repeatability().at(centre);
    double shrinking =
        found.stream().mapToDouble(each -> 1.0 / each.values().size()).average().orElseThrow();
    double measurement = single * Math.sqrt(shrinking);
    // Near the centre, where limits were laid down on another scale.
    double sigma = limits.limits().sigma() / limits.plotting().slope(centre);
    double share = measurement * measurement / (sigma * sigma);
    if (share > 1) {
      caution(
          "The titrations alone scatter by %s %s, more than the chart's sigma of %s %s: look at how its limits came about, and for what else differs between replicates."
              .formatted(Rounding.of(measurement), unit, Rounding.of(sigma), unit));
    } else if (share > 0.5) {
      advise(
          "More than half of the chart's variance is the measurement's: titrate more sample, or more replicates, to see the process.");
    }
    return new MeasurementShare(share, measurement, sigma, limits.revision());
  }

  private static double mean(Determined set) {
    return set.values().stream().mapToDouble(each -> each).average().orElseThrow();
  }
}
