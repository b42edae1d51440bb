package org.sapotrace.pages;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.MeasuredElsewhere;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Titration;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.measure.Rounding;
import org.sapotrace.monitoring.Control;
import org.sapotrace.monitoring.FirstWatch;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Stream;

/**
 * A result as it is shown.
 *
 * @param outcome how it lies to its specification, as a style; {@code none} where nothing is
 *     specified or it does not count
 * @param advice what to do, in a word or two
 * @param figure with its expanded uncertainty and unit
 * @param judged the outcome and the limit, in words; null where there is no verdict
 * @param agreement of the replicates, in a sentence; null where they were not compared
 * @param reason the verdict in a sentence; null likewise
 * @param facts what else is known of it
 * @param more how many more titrations are asked for
 * @param isEntered whether somebody entered it, and may correct it
 * @param budget the sources of uncertainty, largest first
 * @param signals of the chart that hold at it
 * @param history its revisions, oldest first; empty where there is but one
 */
public record ResultPage(
    UUID id,
    String line,
    String stream,
    String batch,
    String formPath,
    String outcome,
    String advice,
    String figure,
    @Nullable String judged,
    @Nullable String reason,
    @Nullable String agreement,
    List<Fact> facts,
    int more,
    boolean isWithdrawn,
    boolean isTitrated,
    boolean isEntered,
    List<Share> budget,
    List<String> signals,
    List<String> cautions,
    @Nullable ReadingsTable readings,
    @Nullable ShownChart chart,
    List<Fact> history) {

  /** Something known of a result. */
  public record Fact(String name, String value) {}

  /**
   * A source of uncertainty.
   *
   * @param width of its bar, of 100
   */
  public record Share(String source, String standardUncertainty, String share, String width) {}

  public String moreInWords() {
    return Words.more(more);
  }

  static ResultPage of(
      Bench.PlacedResult placed, Line line, @Nullable ShownChart chart, WallClock clock) {
    RecordedResult result = placed.result();
    Stream stream = placed.stream();
    RecordedResult.Revision latest = result.latest();
    Assessment assessment = latest.assessment();
    Verdict verdict = latest.withdrawn() ? null : assessment.verdict();
    boolean isTitrated = latest.entered() instanceof Titration;
    return new ResultPage(
        result.id(),
        line.name(),
        stream.name(),
        result.batch(),
        Words.path(stream),
        verdict == null ? "none" : verdict.outcome().id(),
        headline(latest, verdict),
        figure(assessment),
        verdict == null ? null : judged(verdict, stream),
        verdict == null ? null : verdict.reason(),
        agreement(assessment.result()),
        facts(placed, line, clock),
        latest.withdrawn() || !isTitrated ? 0 : more(assessment),
        latest.withdrawn(),
        isTitrated,
        !stream.isKeptRemoval(),
        budget(assessment.result()),
        placed.control() == null
            ? List.of()
            : placed.control().signals().stream().map(signal -> text(signal, stream)).toList(),
        placed.cautions(),
        latest.entered() instanceof Titration titration
            ? ReadingsTable.of(titration.readings(), assessment)
            : null,
        chart,
        history(result, stream, clock));
  }

  static String headline(RecordedResult.Revision latest, @Nullable Verdict verdict) {
    if (latest.withdrawn()) {
      return "Withdrawn";
    }
    return verdict == null ? "Recorded" : Words.advice(verdict);
  }

  static String figure(Assessment assessment) {
    Figure figure = assessment.result();
    Double expanded = figure.expandedUncertainty();
    String number =
        expanded == null ? Rounding.of(figure.value()) : Rounding.of(figure.value(), expanded);
    String withUnit = (number + " " + Words.unit(figure.unit())).strip();
    return assessment.belowDetection() ? "below detection (" + withUnit + ")" : withUnit;
  }

  static String judged(Verdict verdict, Stream stream) {
    return "%s, limit %s"
        .formatted(
            Words.outcome(verdict.outcome()), Words.withUnit(verdict.limit(), stream.unit()));
  }

  static int more(Assessment assessment) {
    Figure.Agreement agreement = assessment.result().agreement();
    if (agreement != null && agreement.needed() > 0) {
      return agreement.needed();
    }
    Verdict verdict = assessment.verdict();
    Integer toDecide = verdict == null ? null : verdict.replicatesToDecide();
    return toDecide == null ? 0 : toDecide;
  }

  private static List<Fact> facts(Bench.PlacedResult placed, Line line, WallClock clock) {
    RecordedResult result = placed.result();
    Figure figure = result.latest().assessment().result();
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("Sampled", clock.shownWithOffset(result.sampledAt())));
    facts.add(new Fact("Measured", Words.quantity(line, placed.stream())));
    if (result.latest().entered() instanceof MeasuredElsewhere measured
        && measured.values().size() > 1) {
      facts.add(
          new Fact(
              "Mean of",
              measured.values().stream().map(DecimalText::write).collect(joining("; "))));
    }
    Figure.Metal metal = figure.metalEquivalent();
    if (metal != null) {
      facts.add(new Fact("As " + metal.metal().id(), metalEquivalent(metal, figure)));
    }
    if (figure.detectionLimit() != null) {
      facts.add(
          new Fact(
              "Limit of detection", Words.uncertainty(figure.detectionLimit(), figure.unit())));
    }
    Double factor = figure.coverageFactor();
    if (factor != null) {
      facts.add(
          new Fact(
              "± covers",
              (result.latest().entered() instanceof Titration ? "about 95 %, k = " : "k = ")
                  + Rounding.of(rounded(factor))));
    }
    if (result.latest().entered() instanceof Titration titration && titration.analyst() != null) {
      facts.add(new Fact("Analyst", titration.analyst()));
    }
    Optional.ofNullable(placed.control())
        .map(Control::firstWatch)
        .filter(FirstWatch::unusual)
        .ifPresent(watch -> facts.add(new Fact("Unusual", watch.text())));
    return facts;
  }

  /** The metal is a fixed part of the soap, and so is its uncertainty. */
  private static String metalEquivalent(Figure.Metal metal, Figure figure) {
    Double expanded = figure.expandedUncertainty();
    return expanded == null || figure.value() == 0
        ? Words.withUnit(metal.value(), metal.unit())
        : Rounding.of(metal.value(), expanded * metal.value() / figure.value())
            + " "
            + metal.unit();
  }

  private static double rounded(double factor) {
    return Math.round(factor * 100) / 100.0;
  }

  private static @Nullable String agreement(Figure figure) {
    Figure.Agreement agreement = figure.agreement();
    if (agreement == null) {
      return null;
    }
    return "The titrations %s: they differ by %s, and %s is the most to expect. The figure is the %s."
        .formatted(
            agreement.range() <= agreement.criticalRange() ? "agree" : "disagree",
            Words.uncertainty(agreement.range(), figure.unit()),
            Words.uncertainty(agreement.criticalRange(), figure.unit()),
            agreement.branch());
  }

  /** A signal in words, without the name of the stream that the page has already. */
  private static String text(Signal signal, Stream stream) {
    String name = stream.name() + ", batch ";
    String text = signal.text();
    return text.startsWith(name) ? "Batch " + text.substring(name.length()) : text;
  }

  private static List<Share> budget(Figure figure) {
    return figure.budget().stream()
        .map(
            source ->
                new Share(
                    source.source(),
                    Words.uncertainty(source.standardUncertainty(), figure.unit()),
                    Words.share(source.share()),
                    String.valueOf(Math.round(1000 * source.share()) / 10.0)))
        .toList();
  }

  private static List<Fact> history(RecordedResult result, Stream stream, WallClock clock) {
    if (result.revisions().size() < 2) {
      return List.of();
    }
    return result.revisions().stream()
        .map(
            revision ->
                new Fact(
                    clock.shown(revision.recordedAt()),
                    (revision.withdrawn()
                            ? "withdrawn"
                            : Words.withUnit(revision.assessment().result().value(), stream.unit()))
                        + (revision.reason() == null ? "" : ": " + revision.reason())))
        .toList();
  }
}
