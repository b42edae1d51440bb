package org.sapotrace.review;

import static org.sapotrace.chartimage.Block.Table.Column.number;
import static org.sapotrace.chartimage.Block.Table.Column.words;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.chartimage.Block;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Stream;

/** The first page: what the period came to, in a few sentences, and what is left to do. */
record Summary(LineReview review) {

  private static final int MOST_NAMES = 12;

  List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Block.Heading(1, "Review of " + review.line().name()));
    blocks.add(
        new Block.Paragraph(
            "%s to %s, UTC. Line %s, catalysed with %s."
                .formatted(
                    Words.time(review.period().from()),
                    Words.time(review.period().to()),
                    review.line().slug(),
                    review.line().alkali().id())));
    blocks.add(new Block.Heading(2, "Summary"));
    if (review.streams().isEmpty()) {
      blocks.add(new Block.Paragraph("No results were recorded of this period."));
    } else {
      List.of(recorded(), verdicts(), signals(), control())
          .forEach(sentence -> blocks.add(new Block.Paragraph(sentence)));
    }
    if (!review.silent().isEmpty()) {
      blocks.add(new Block.Paragraph(silent()));
    }
    if (!review.streams().isEmpty()) {
      blocks.addAll(toDo());
      blocks.add(new Block.Heading(2, "Streams"));
      blocks.add(streams());
    }
    return blocks;
  }

  private List<Block> toDo() {
    List<Block> blocks = new ArrayList<>(List.of(new Block.Heading(2, "What to do")));
    List<String> tasks = new ToDo(review).tasks();
    tasks.forEach(task -> blocks.add(new Block.Item(task)));
    if (tasks.isEmpty()) {
      blocks.add(new Block.Paragraph("Nothing is left to do."));
    }
    return blocks;
  }

  private String recorded() {
    List<RecordedResult> all =
        review.streams().stream().flatMap(each -> each.results().stream()).toList();
    long batches = all.stream().map(RecordedResult::batch).distinct().count();
    long withdrawn = all.stream().filter(each -> each.latest().withdrawn()).count();
    long changed =
        all.stream()
            .filter(each -> each.revisions().size() > 1 && !each.latest().withdrawn())
            .count();
    return "%s of %s were recorded at %s; %d of them have been changed since, and %d withdrawn."
        .formatted(
            Words.count(all.size(), "result"),
            Words.count(batches, "batch"),
            Words.count(review.streams().size(), "stream"),
            changed,
            withdrawn);
  }

  private String verdicts() {
    long judged =
        ofFuel()
            .flatMap(each -> each.counting().stream())
            .filter(each -> StreamReview.verdict(each) != null)
            .count();
    if (judged == 0) {
      return "None of them was held against a specification.";
    }
    return "%s held against a specification: %d conforming, %d nonconforming, %d inconclusive.%s"
        .formatted(
            Words.count(judged, "result") + (judged == 1 ? " was" : " were"),
            of(Verdict.Outcome.CONFORMING).size(),
            of(Verdict.Outcome.NONCONFORMING).size(),
            of(Verdict.Outcome.INCONCLUSIVE).size(),
            nonconforming() + flushed());
  }

  private String flushed() {
    return ofFuel().count() == review.streams().size()
        ? ""
        : " Flush methanol is not counted here: its samples follow a flush until it is clean.";
  }

  private java.util.stream.Stream<StreamReview> ofFuel() {
    return review.streams().stream()
        .filter(each -> each.stream().samplingPoint() != SamplingPoint.FLUSH_METHANOL);
  }

  private String nonconforming() {
    List<String> batches = of(Verdict.Outcome.NONCONFORMING);
    return batches.isEmpty()
        ? ""
        : " Not conforming: " + Words.names(batches.stream().distinct().toList(), MOST_NAMES) + ".";
  }

  /** The batches of that outcome, once for each result. */
  private List<String> of(Verdict.Outcome outcome) {
    return ofFuel()
        .flatMap(stream -> stream.withOutcome(outcome).stream())
        .map(RecordedResult::batch)
        .toList();
  }

  private String signals() {
    long all = review.streams().stream().mapToInt(stream -> stream.signals().size()).sum();
    return all == 0
        ? "No signal was raised."
        : "%s held in the period: %d without a finding, %d explained, %d lapsed."
            .formatted(
                Words.count(all, "signal"),
                count(Signal.State.UNEXPLAINED),
                count(Signal.State.EXPLAINED),
                count(Signal.State.LAPSED));
  }

  private int count(Signal.State state) {
    return review.streams().stream().mapToInt(stream -> stream.signals(state).size()).sum();
  }

  private String control() {
    List<String> out =
        review.streams().stream()
            .filter(stream -> !stream.signallingAtTheEnd().isEmpty())
            .map(stream -> stream.stream().name())
            .toList();
    return out.isEmpty()
        ? "No chart signals at the end of the period."
        : "Out of control at the end of the period: " + String.join(", ", out) + ".";
  }

  private String silent() {
    return "Without results in the period: "
        + review.silent().stream().map(Stream::name).collect(Collectors.joining(", "))
        + ".";
  }

  private Block streams() {
    return new Block.Table(
        List.of(
            words("Stream", 30),
            number("Results", 10),
            words("Limits", 20),
            words("Conform / not / open", 20),
            words("Signals, unexplained", 20),
            words("At the end", 22)),
        review.streams().stream().map(Summary::row).toList());
  }

  private static List<String> row(StreamReview stream) {
    LimitsRevision limits = stream.limitsAtTheEnd();
    boolean isJudged = stream.counting().stream().anyMatch(r -> StreamReview.verdict(r) != null);
    return List.of(
        stream.stream().name(),
        String.valueOf(stream.results().size()),
        limits == null
            ? "none"
            : "%s, revision %d".formatted(limits.status().id(), limits.revision()),
        isJudged
            ? "%d / %d / %d"
                .formatted(
                    stream.withOutcome(Verdict.Outcome.CONFORMING).size(),
                    stream.withOutcome(Verdict.Outcome.NONCONFORMING).size(),
                    stream.withOutcome(Verdict.Outcome.INCONCLUSIVE).size())
            : "no specification",
        "%d, %d"
            .formatted(stream.signals().size(), stream.signals(Signal.State.UNEXPLAINED).size()),
        limits == null
            ? "not judged"
            : stream.signallingAtTheEnd().isEmpty() ? "no signal" : "out of control");
  }
}
