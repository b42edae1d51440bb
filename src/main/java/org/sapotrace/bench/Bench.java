package org.sapotrace.bench;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.transaction.Transactional;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Reagent;
import org.sapotrace.monitoring.Control;
import org.sapotrace.monitoring.Hindsight;
import org.sapotrace.monitoring.Monitoring;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Takes what is entered, computes and judges it, and has it charted: all or nothing. */
@ApplicationScoped
@Transactional
public class Bench {

  /**
   * A result with the stream it belongs to and its place on the chart.
   *
   * @param control null for a withdrawn result
   * @param further what is to be known of it as things stand, beside its own cautions
   */
  public record PlacedResult(
      RecordedResult result, Stream stream, @Nullable Control control, List<String> further) {

    /** What whoever uses the result should know. */
    public List<String> cautions() {
      return result.latest().assessment().withCautions(further).cautions();
    }
  }

  private final ProductLines productLines;
  private final Monitoring monitoring;
  private final Results results;
  private final OwnReplicates replicates;
  private final Assessor assessor;
  private final Removals removals;
  private final InstantSource clock;
  private final Verdicts verdicts;
  private final ThroughputLog throughputLog;
  private final Event<ResultsRecorded> recorded;

  /** What is on record beside entries that are to be recorded. */
  private record Known(
      ReplicateHistory history, NormalitiesBefore normalities, ThroughputOrder throughput) {

    void add(Entry entry, RecordedResult result) {
      history.add(result);
      normalities.add(entry);
      throughput.add(entry);
    }
  }

  Bench(
      ProductLines productLines,
      Monitoring monitoring,
      Results results,
      OwnReplicates replicates,
      Assessor assessor,
      Removals removals,
      InstantSource clock,
      Verdicts verdicts,
      ThroughputLog throughputLog,
      Event<ResultsRecorded> recorded) {
    this.productLines = productLines;
    this.monitoring = monitoring;
    this.results = results;
    this.replicates = replicates;
    this.assessor = assessor;
    this.removals = removals;
    this.clock = clock;
    this.verdicts = verdicts;
    this.throughputLog = throughputLog;
    this.recorded = recorded;
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

  /**
   * Records a standardisation of a titrant lot.
   *
   * @param strengthStream the identifier of the lot's strength stream
   * @param reagent what the lot is made of
   * @param judge what the lot makes of it: adds to the cautions, or refuses
   * @throws Refusal if it cannot be true
   */
  public PlacedResult record(
      UUID strengthStream,
      StandardisedTitrant entry,
      Reagent reagent,
      UnaryOperator<Assessment> judge) {
    Stream stream = productLines.lock(strengthStream).orElseThrow();
    SamplingTime.check(entry, clock.instant());
    Assessment found = StandardisationAssessor.assess(entry.readings(), reagent, null);
    return keep(stream, result(stream, entry, judge.apply(found)));
  }

  /** Refuses a stream that does not exist, before anything is made of what is sent to it. */
  public void requireStream(String line, String slug) {
    productLines.stream(line, slug);
  }

  /**
   * Records entries together, each by itself taken or refused. They end as they would one by one.
   * They are part of the caller's transaction, or one of their own.
   *
   * @return why each of them was refused, in their order; empty where it was recorded
   * @throws Refusal if there is no such stream
   */
  public List<Optional<Refusal>> recordAll(String line, String slug, List<Entry> entries) {
    Line product = productLines.line(line);
    Stream stream = productLines.lock(line, slug);
    Hindsight hindsight = Hindsight.ofImport(clock.instant());
    Inflow inflow = new Inflow(entries, clock.instant());
    Known known =
        new Known(
            history(stream, inflow.titrations()),
            new NormalitiesBefore(results, stream.id()),
            throughputLog.around(stream, entries, null));
    List<RecordedResult> added = new ArrayList<>();
    inflow.take(
        entry -> {
          RecordedResult result = determine(product, stream, entry, known);
          added.add(result);
          verdicts.tell(stream, result, hindsight);
        });
    results.addAll(added);
    monitoring.chartAll(stream, added.stream().map(RecordedResult::charted).toList(), hindsight);
    List<String> batches = added.stream().map(RecordedResult::batch).toList();
    removals.follow(stream, batches, recorded(stream), hindsight);
    recorded.fire(new ResultsRecorded(stream, hindsight));
    return inflow.refusals();
  }

  private static String recorded(Stream stream) {
    return "another result of the batch was recorded in stream " + stream.slug();
  }

  private PlacedResult record(Line line, Stream stream, Entry entry) {
    Known known =
        new Known(
            history(stream, List.of(entry)),
            new NormalitiesBefore(results, stream.id()),
            throughputLog.around(stream, List.of(entry), null));
    return keep(stream, determine(line, stream, entry, known));
  }

  private PlacedResult keep(Stream stream, RecordedResult result) {
    results.add(result);
    verdicts.tell(stream, result);
    return chart(stream, result);
  }

  private PlacedResult chart(Stream stream, RecordedResult result) {
    Control control = monitoring.chart(stream, result.charted());
    removals.follow(stream, List.of(result.batch()), recorded(stream));
    recorded.fire(new ResultsRecorded(stream));
    return new PlacedResult(result, stream, control, removals.cautions(stream, result.batch()));
  }

  private ReplicateHistory history(Stream stream, List<Entry> inOrder) {
    if (inOrder.isEmpty()) {
      return ReplicateHistory.none();
    }
    Entry first = inOrder.get(0);
    Entry last = inOrder.get(inOrder.size() - 1);
    SamplingTime.check(first, clock.instant());
    SamplingTime.check(last, clock.instant());
    return ReplicateHistory.from(replicates, stream.id(), first.sampledAt(), last.sampledAt());
  }

  /** What becomes of an entry, which is known from then on. */
  private RecordedResult determine(Line line, Stream stream, Entry entry, Known known) {
    Double normalityBefore = known.normalities().before(entry);
    Assessment found = assess(line, stream, entry, known.history(), normalityBefore);
    known.throughput().check(entry, null);
    RecordedResult result = result(stream, entry, found);
    known.add(entry, result);
    return result;
  }

  private RecordedResult result(Stream stream, Entry entry, Assessment assessment) {
    return new RecordedResult(
        productLines.nextIdentifier(stream.id()),
        stream.id(),
        entry.batch(),
        entry.sampledAt(),
        List.of(new RecordedResult.Revision(1, clock.instant(), null, false, entry, assessment)));
  }

  private Assessment assess(
      Line line,
      Stream stream,
      Entry entry,
      ReplicateHistory history,
      @Nullable Double normalityBefore) {
    SamplingTime.check(entry, clock.instant());
    return assessor.assess(
        line,
        stream,
        entry,
        new Background(
            false,
            // Only titrations are compared by how far others have scattered.
            entry instanceof Titration ? history.pooled(entry.sampledAt(), null) : null,
            normalityBefore));
  }

  public PlacedResult result(UUID id) {
    RecordedResult result = results.result(id).orElseThrow(() -> RecordedResult.none(id));
    Stream stream = productLines.stream(result.stream()).orElseThrow(() -> RecordedResult.none(id));
    return new PlacedResult(
        result,
        stream,
        monitoring.controls(stream, List.of(id)).get(id),
        removals.cautions(stream, result.batch()));
  }

  /** Results of a stream in the order of sampling, then of recording. */
  public List<PlacedResult> results(
      String line, String slug, Results.Selection selection, int most) {
    Stream stream = productLines.stream(line, slug);
    List<RecordedResult> page = results.select(stream.id(), selection, most);
    Map<UUID, Control> controls =
        monitoring.controls(stream, page.stream().map(RecordedResult::id).toList());
    Map<String, List<String>> further =
        removals.cautions(stream, page.stream().map(RecordedResult::batch).toList());
    return page.stream()
        .map(
            result ->
                new PlacedResult(
                    result,
                    stream,
                    controls.get(result.id()),
                    further.getOrDefault(result.batch(), List.of())))
        .toList();
  }
}
