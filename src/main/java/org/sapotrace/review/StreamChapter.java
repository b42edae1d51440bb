package org.sapotrace.review;

import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Titration;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.chartimage.Block;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.monitoring.CapabilityCharts;
import org.sapotrace.monitoring.ControlCharts;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.productline.DatedSpecification;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** What is to be said of a stream. */
record StreamChapter(StreamReview review) {

  List<Block> blocks() {
    Stream stream = review.stream();
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Block.NewPage());
    blocks.add(new Block.Heading(1, stream.name()));
    blocks.add(
        new Block.Paragraph(
            "Stream %s: %s at sampling point %s, %s. %s"
                .formatted(
                    stream.slug(),
                    stream.measurand().label(),
                    stream.samplingPoint().id(),
                    stream.unit().equals("1") ? "without a unit" : "in " + stream.unit(),
                    results())));
    blocks.add(new Block.Paragraph(specification() + " " + titrants()));
    blocks.add(new Block.Picture(ControlCharts.of(stream.chart().resultsChart(), review.chart())));
    blocks.addAll(drift());
    blocks.addAll(new LimitsTable(review).blocks());
    blocks.addAll(new SignalTable(review).blocks());
    blocks.add(new Block.Heading(2, "Capability"));
    blocks.add(new Block.Paragraph(capability()));
    blocks.addAll(new PrecisionPart(review).blocks());
    blocks.addAll(new ChangeTable(review).blocks());
    return blocks;
  }

  /** The statistics that gather small shifts, as far as they watch the stream. */
  private List<Block> drift() {
    LimitsRevision limits = review.limitsAtTheEnd();
    if (limits == null) {
      return List.of(
          new Block.Paragraph("There is no moving average (EWMA) while nothing judges results."));
    }
    List<Block> blocks = new ArrayList<>();
    if (limits.detectors().ewma() == null) {
      blocks.add(new Block.Paragraph("The stream is not watched by a moving average (EWMA)."));
    } else {
      blocks.add(new Block.Picture(ControlCharts.of(ControlChart.Kind.EWMA, review.chart())));
    }
    if (limits.detectors().cusum() != null) {
      blocks.add(new Block.Picture(ControlCharts.of(ControlChart.Kind.CUSUM, review.chart())));
    }
    return blocks;
  }

  private String results() {
    List<RecordedResult> counting = review.counting();
    if (counting.isEmpty()) {
      return "All results of the period were withdrawn.";
    }
    DoubleSummaryStatistics values =
        counting.stream()
            .mapToDouble(result -> StreamReview.value(result.latest()))
            .summaryStatistics();
    return "%s, sampled from %s to %s; mean %s, from %s to %s."
        .formatted(
            Words.count(counting.size(), "result") + (counting.size() == 1 ? " counts" : " count"),
            Words.day(counting.get(0).sampledAt()),
            Words.day(counting.get(counting.size() - 1).sampledAt()),
            review.stream().withUnit(Words.number(values.getAverage())),
            Words.number(values.getMin()),
            review.stream().withUnit(Words.number(values.getMax())));
  }

  private String specification() {
    List<DatedSpecification> all = review.stream().specifications();
    return all.isEmpty()
        ? "Nothing is specified."
        : "Specification, as it was put: "
            + all.stream().map(this::specified).collect(Collectors.joining("; "))
            + ".";
  }

  private String specified(DatedSpecification dated) {
    String since = dated.from() == null ? "from the first result" : "from " + dated.from();
    return limits(dated.limits()) + " " + since;
  }

  private String limits(@Nullable Specification limits) {
    if (limits == null) {
      return "nothing";
    }
    List<String> sides = new ArrayList<>();
    if (limits.lower() != null) {
      sides.add("at least " + review.stream().withUnit(Words.number(limits.lower())));
    }
    if (limits.upper() != null) {
      sides.add("at most " + review.stream().withUnit(Words.number(limits.upper())));
    }
    return String.join(" and ", sides);
  }

  private String capability() {
    try {
      CapabilityChart found = CapabilityCharts.of(review.chart());
      return Words.sentence(found.headline());
    } catch (Refusal none) {
      return "No capability: " + none.getMessage();
    }
  }

  private String titrants() {
    if (review.stream().isKeptRemoval()) {
      return "Each result is ln(inlet/outlet) of a batch, derived from streams %s and %s."
          .formatted(review.stream().inlet(), review.stream().outlet());
    }
    Map<String, Long> lots = new TreeMap<>();
    long typed = 0;
    for (RecordedResult result : review.counting()) {
      UsedTitrant titrant = result.latest().assessment().titrant();
      if (titrant != null) {
        lots.merge(titrant.lot(), 1L, Long::sum);
      } else if (result.latest().entered() instanceof Titration) {
        typed++;
      }
    }
    List<String> used = new ArrayList<>();
    lots.forEach((lot, n) -> used.add("lot %s (%s)".formatted(lot, Words.count(n, "result"))));
    if (typed > 0) {
      used.add("a normality that was typed (%s)".formatted(Words.count(typed, "result")));
    }
    return used.isEmpty()
        ? "No result that counts was titrated here."
        : "Titrated with " + String.join(", ", used) + ".";
  }
}
