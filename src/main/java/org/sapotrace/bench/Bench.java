package org.sapotrace.bench;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.sapotrace.monitoring.ChartedResult;
import org.sapotrace.monitoring.Control;
import org.sapotrace.monitoring.Monitoring;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Takes what is entered, computes and judges it, and has it charted: all or nothing. */
@ApplicationScoped
@Transactional
public class Bench {

  /** How far ahead of this service's clock another clock may be. */
  private static final Duration AHEAD = Duration.ofMinutes(5);

  /** A result with the stream it belongs to and its place on the chart. */
  public record PlacedResult(RecordedResult result, Stream stream, Control control) {}

  private final ProductLines productLines;
  private final Monitoring monitoring;
  private final Results results;
  private final Assessor assessor;
  private final InstantSource clock;

  Bench(
      ProductLines productLines,
      Monitoring monitoring,
      Results results,
      Assessor assessor,
      InstantSource clock) {
    this.productLines = productLines;
    this.monitoring = monitoring;
    this.results = results;
    this.assessor = assessor;
    this.clock = clock;
  }

  /**
   * Records what was entered for a stream.
   *
   * @throws Refusal if it cannot be true, is incomplete, or the stream does not take it
   */
  public PlacedResult record(String line, String slug, Entry entry) {
    Line product = productLines.line(line);
    Stream stream = productLines.lock(line, slug);
    return record(product, stream, entry);
  }

  /** Refuses a stream that does not exist, before anything is made of what is sent to it. */
  public void requireStream(String line, String slug) {
    productLines.stream(line, slug);
  }

  /** Records all entries, or none if one of them is refused. */
  public List<PlacedResult> recordAll(String line, String slug, List<Entry> entries) {
    Line product = productLines.line(line);
    Stream stream = productLines.lock(line, slug);
    return entries.stream().map(entry -> record(product, stream, entry)).toList();
  }

  /**
   * What would be made of an entry, without recording it.
   *
   * @throws Refusal as {@link #record(String, String, Entry)} does
   */
  public Assessment assess(String line, String slug, Entry entry) {
    refuseFuture(entry.sampledAt(), clock.instant());
    return assessor.assess(productLines.line(line), productLines.stream(line, slug), entry);
  }

  /** What the readings of a soap titration come to, on a basis that belongs to no line. */
  public Assessment calculateSoap(Readings readings, SoapBasis basis) {
    return SoapAssessor.assess(readings, basis);
  }

  private PlacedResult record(Line line, Stream stream, Entry entry) {
    Instant now = clock.instant();
    refuseFuture(entry.sampledAt(), now);
    Assessment assessment = assessor.assess(line, stream, entry);
    UUID id = productLines.nextIdentifier(stream.id());
    RecordedResult result =
        new RecordedResult(
            id,
            stream.id(),
            entry.batch(),
            entry.sampledAt(),
            List.of(new RecordedResult.Revision(1, now, null, entry, assessment)));
    results.add(result);
    return new PlacedResult(result, stream, monitoring.chart(stream, charted(result)));
  }

  private static ChartedResult charted(RecordedResult result) {
    Assessment assessment = result.latest().assessment();
    return new ChartedResult(
        result.id(),
        result.batch(),
        result.sampledAt(),
        assessment.result().value(),
        assessment.result().standardUncertainty(),
        assessment.belowDetection());
  }

  private static void refuseFuture(Instant sampledAt, Instant now) {
    if (sampledAt.isAfter(now.plus(AHEAD))) {
      throw Refusal.impossible(
          "#/sampledAt",
          "The sample is dated %s, and here it is %s: check the date and its offset."
              .formatted(sampledAt, now));
    }
  }

  public PlacedResult result(UUID id) {
    RecordedResult result =
        results
            .result(id)
            .orElseThrow(() -> Refusal.unknown("There is no result %s.".formatted(id)));
    Stream stream = productLines.stream(result.stream()).orElseThrow();
    return new PlacedResult(result, stream, monitoring.control(stream, id));
  }

  /** Results of a stream in the order of sampling, then of recording. */
  public List<PlacedResult> results(
      String line, String slug, Results.Selection selection, int most) {
    Stream stream = productLines.stream(line, slug);
    List<RecordedResult> page = results.select(stream.id(), selection, most);
    Map<UUID, Control> controls =
        monitoring.controls(stream, page.stream().map(RecordedResult::id).toList());
    return page.stream()
        .map(
            result ->
                new PlacedResult(result, stream, Objects.requireNonNull(controls.get(result.id()))))
        .toList();
  }
}
