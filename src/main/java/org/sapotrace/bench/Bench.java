package org.sapotrace.bench;

import io.quarkus.narayana.jta.runtime.TransactionConfiguration;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.transaction.Transactional;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Reagent;
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

  /** How long an import may take, in s. */
  private static final int LONGEST_IMPORT = 900;

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
      ReplicateHistory history, NormalitiesBefore normalities, ThroughputOrder throughput) {}

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
    return chart(stream, add(stream, entry, judge.apply(found)));
  }

  /** Refuses a stream that does not exist, before anything is made of what is sent to it. */
  public void requireStream(String line, String slug) {
    productLines.stream(line, slug);
  }

  /** Records entries together: all, or none if one of them is refused. */
  @TransactionConfiguration(timeout = LONGEST_IMPORT)
  public void recordAll(String line, String slug, List<Entry> entries) {
    Line product = productLines.line(line);
    Stream stream = productLines.lock(line, slug);
    // In the order of sampling no entry is late, so that none is judged twice.
    List<Entry> inOrder = entries.stream().sorted(Comparator.comparing(Entry::sampledAt)).toList();
    Known known = known(stream, inOrder);
    List<RecordedResult> added =
        inOrder.stream().map(entry -> add(product, stream, entry, known)).toList();
    monitoring.chartAll(stream, added.stream().map(RecordedResult::charted).toList());
    removals.follow(stream, added.stream().map(RecordedResult::batch).toList(), recorded(stream));
    recorded.fire(new ResultsRecorded(stream));
  }

  private static String recorded(Stream stream) {
    return "another result of the batch was recorded in stream " + stream.slug();
  }

  /**
   * Why each of some entries would be refused.
   *
   * @return one for each entry, empty where it would be recorded
   */
  public List<Optional<Refusal>> refusals(String line, String slug, List<Entry> entries) {
    Line product = productLines.line(line);
    Stream stream = productLines.stream(line, slug);
    ThroughputOrder throughput = throughputLog.around(stream, entries, null);
    List<Optional<Refusal>> refusals =
        new ArrayList<>(Collections.nCopies(entries.size(), Optional.empty()));
    IntStream.range(0, entries.size())
        .boxed()
        .sorted(Comparator.comparing(i -> entries.get(i).sampledAt()))
        .forEach(i -> refusals.set(i, refusal(product, stream, entries.get(i), throughput)));
    return refusals;
  }

  private Optional<Refusal> refusal(
      Line line, Stream stream, Entry entry, ThroughputOrder throughput) {
    try {
      // Nothing is refused for how far titrations have scattered, or what they took.
      assess(line, stream, entry, ReplicateHistory.none(), null);
      throughput.check(entry, null);
      throughput.add(entry);
      return Optional.empty();
    } catch (Refusal refusal) {
      return Optional.of(refusal);
    }
  }

  private PlacedResult record(Line line, Stream stream, Entry entry) {
    return chart(stream, add(line, stream, entry, known(stream, List.of(entry))));
  }

  private Known known(Stream stream, List<Entry> inOrder) {
    return new Known(
        history(stream, inOrder),
        new NormalitiesBefore(results, stream.id()),
        throughputLog.around(stream, inOrder, null));
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

  private RecordedResult add(Line line, Stream stream, Entry entry, Known known) {
    Double before = known.normalities().before(entry);
    Assessment assessment = assess(line, stream, entry, known.history(), before);
    known.throughput().check(entry, null);
    RecordedResult added = add(stream, entry, assessment);
    known.history().add(added);
    known.throughput().add(entry);
    return added;
  }

  private RecordedResult add(Stream stream, Entry entry, Assessment assessment) {
    RecordedResult result =
        new RecordedResult(
            productLines.nextIdentifier(stream.id()),
            stream.id(),
            entry.batch(),
            entry.sampledAt(),
            List.of(
                new RecordedResult.Revision(1, clock.instant(), null, false, entry, assessment)));
    results.add(result);
    verdicts.tell(stream, result);
    return result;
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
        new Background(false, history.pooled(entry.sampledAt(), null), normalityBefore));
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
