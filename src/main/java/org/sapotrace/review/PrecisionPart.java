package org.sapotrace.review;

import java.util.ArrayList;
import java.util.List;
import org.sapotrace.bench.PrecisionReport;
import org.sapotrace.chartimage.Block;

/** How precise the titrations of a period were. */
record PrecisionPart(StreamReview review) {

  List<Block> blocks() {
    PrecisionReport report = review.precision();
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Block.Heading(2, "Precision of the measurement"));
    if (report.determinations() == 0) {
      blocks.add(new Block.Paragraph("No result that counts was titrated here."));
      return blocks;
    }
    blocks.add(
        new Block.Paragraph(
            repeatability(report) + " " + reproducibility(report) + " " + share(report)));
    List<String> more = new ArrayList<>(report.cautions());
    more.addAll(report.advice());
    more.forEach(each -> blocks.add(new Block.Item(each)));
    return blocks;
  }

  private String repeatability(PrecisionReport report) {
    PrecisionReport.OfTitrations found = report.repeatability();
    return found == null
        ? "Repeatability: not known."
        : "Repeatability (one analyst, one sample): standard deviation %s at a level of %s, from %s of replicates; two titrations differ by more than %s 5 times in 100."
            .formatted(
                unit(found.standardDeviation()),
                unit(found.level()),
                Words.count(found.sets(), "set"),
                unit(found.criticalRangeOfTwo()));
  }

  private String reproducibility(PrecisionReport report) {
    PrecisionReport.BetweenAnalysts found = report.reproducibility();
    return found == null
        ? "Reproducibility between analysts: not known."
        : "Reproducibility between %s: standard deviation %s, from %s."
            .formatted(
                Words.count(found.analysts(), "analyst"),
                unit(found.standardDeviation()),
                Words.count(found.samples(), "sample"));
  }

  private String share(PrecisionReport report) {
    PrecisionReport.MeasurementShare found = report.measurementShare();
    return found == null
        ? "The measurement's share of the chart's sigma: not known."
        : "The measurement makes %s of the chart's variance: %s of a sigma of %s (limits revision %d)."
            .formatted(
                found.shareOfVariance() < 0.01
                    ? "under 1 %"
                    : Math.round(100 * found.shareOfVariance()) + " %",
                unit(found.measurementStandardDeviation()),
                unit(found.chartSigma()),
                found.limitsRevision());
  }

  private String unit(double value) {
    return review.stream().withUnit(Words.number(value));
  }
}
