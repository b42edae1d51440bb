package org.sapotrace.bench;

import io.quarkus.narayana.jta.runtime.TransactionConfiguration;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
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

  /** How far ahead of this service's clock another clock may be. */
  private static final Duration AHEAD = Duration.ofMinutes(5);

  /** No sample on record is older; a year that is misread would stretch every chart. */
  static final Instant LONG_AGO = Instant.parse("1900-01-01T00:00:00Z");

  /** How long an import may take, in s. */
  private static final int LONGEST_IMPORT = 900;

  /**
   * A result with the stream it belongs to and its place on the chart.
   *
   * @param control null for a withdrawn result
   */
  public record PlacedResult(RecordedResult result, Stream stream, @Nullable Control control) {}

  private final ProductLines productLines;
  private final Monitoring monitoring;
  private final Results results;
  private final OwnReplicates replicates;
  private final Assessor assessor;
  private final InstantSource clock;

  Bench(
      ProductLines productLines,
      Monitoring monitoring,
      Results results,
      OwnReplicates replicates,
      Assessor assessor,
      InstantSource clock) {
    this.productLines = productLines;
    this.monitoring = monitoring;
    this.results = results;
    this.replicates = replicates;
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
    refuseImpossibleTime(entry, clock.instant());
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
    ReplicateHistory history = history(stream, inOrder);
    NormalitiesBefore normalities = new NormalitiesBefore(results, stream.id());
    List<RecordedResult> recorded =
        inOrder.stream().map(entry -> add(product, stream, entry, history, normalities)).toList();
    monitoring.chartAll(stream, recorded.stream().map(RecordedResult::charted).toList());
  }

  /**
   * Why each of some entries would be refused.
   *
   * @return one for each entry, empty where it would be recorded
   */
  public List<Optional<Refusal>> refusals(String line, String slug, List<Entry> entries) {
    Line product = productLines.line(line);
    Stream stream = productLines.stream(line, slug);
    return entries.stream().map(entry -> refusal(product, stream, entry)).toList();
  }

  private Optional<Refusal> refusal(Line line, Stream stream, Entry entry) {
    try {
      // Nothing is refused for how far titrations have scattered, or what they took.
      assess(line, stream, entry, ReplicateHistory.none(), null);
      return Optional.empty();
    } catch (Refusal refusal) {
      return Optional.of(refusal);
    }
  }

  private PlacedResult record(Line line, Stream stream, Entry entry) {
    ReplicateHistory history = history(stream, List.of(entry));
    NormalitiesBefore normalities = new NormalitiesBefore(results, stream.id());
    return chart(stream, add(line, stream, entry, history, normalities));
  }

  private PlacedResult chart(Stream stream, RecordedResult result) {
    return new PlacedResult(result, stream, monitoring.chart(stream, result.charted()));
  }

  private ReplicateHistory history(Stream stream, List<Entry> inOrder) {
    if (inOrder.isEmpty()) {
      return ReplicateHistory.none();
    }
    Entry first = inOrder.get(0);
    Entry last = inOrder.get(inOrder.size() - 1);
    refuseImpossibleTime(first, clock.instant());
    refuseImpossibleTime(last, clock.instant());
    return ReplicateHistory.from(replicates, stream.id(), first.sampledAt(), last.sampledAt());
  }

  private RecordedResult add(
      Line line,
      Stream stream,
      Entry entry,
      ReplicateHistory history,
      NormalitiesBefore normalities) {
    Double before = normalities.before(entry);
    RecordedResult added = add(stream, entry, assess(line, stream, entry, history, before));
    history.add(added);
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
    return result;
  }

  private Assessment assess(
      Line line,
      Stream stream,
      Entry entry,
      ReplicateHistory history,
      @Nullable Double normalityBefore) {
    refuseImpossibleTime(entry, clock.instant());
    return assessor.assess(
        line,
        stream,
        entry,
        new Background(false, history.pooled(entry.sampledAt(), null), normalityBefore));
  }

  /**
   * Adds a revision to a result, and has the chart judged again from there.
   *
   * @throws Refusal if the correction cannot be true, or the result was withdrawn
   */
  public PlacedResult correct(UUID id, Correction correction) {
    return correct(id, correction, current -> {});
  }

  /**
   * The same, of a result that is as the caller saw it.
   *
   * @param precondition is shown the result under its stream's lock, and throws where the caller
   *     wants nothing changed
   */
  public PlacedResult correct(
      UUID id, Correction correction, Consumer<RecordedResult> precondition) {
    // The lock comes before the look at what is there.
    Stream stream =
        results.streamOf(id).flatMap(productLines::lock).orElseThrow(() -> noResult(id));
    RecordedResult current = results.result(id).orElseThrow(() -> noResult(id));
    if (current.latest().withdrawn()) {
      throw Refusal.conflict("Result %s was withdrawn; record the sample anew.".formatted(id));
    }
    precondition.accept(current);
    RecordedResult revised = current.with(revision(stream, current, correction));
    results.revise(revised);
    String reason =
        "result of batch %s was corrected: %s".formatted(revised.batch(), correction.reason());
    if (revised.latest().withdrawn()) {
      monitoring.withdraw(stream, id, reason);
      return new PlacedResult(revised, stream, null);
    }
    return new PlacedResult(revised, stream, monitoring.correct(stream, revised.charted(), reason));
  }

  private RecordedResult.Revision revision(
      Stream stream, RecordedResult current, Correction correction) {
    RecordedResult.Revision latest = current.latest();
    Instant now = clock.instant();
    boolean withdrawn = correction.change() instanceof Correction.Withdrawn;
    Entry entry = correction.change().appliedTo(latest.entered());
    Assessment assessment =
        withdrawn ? latest.assessment() : reassess(stream, current.id(), latest, entry, now);
    return new RecordedResult.Revision(
        latest.revision() + 1, now, correction.reason(), withdrawn, entry, assessment);
  }

  /** Where a restatement interpolated a lot, a correction does so too, and never undoes it. */
  private Assessment reassess(
      Stream stream, UUID id, RecordedResult.Revision latest, Entry entry, Instant now) {
    refuseImpossibleTime(entry, now);
    UsedTitrant used = latest.assessment().titrant();
    boolean interpolate =
        used != null && used.interpolated() && used.lot().equals(entry.titrantLot());
    Line line = productLines.line(Objects.requireNonNull(stream.line()));
    ReplicateHistory history = history(stream, List.of(entry));
    Double before = new NormalitiesBefore(results, stream.id()).before(entry);
    return assessor.assess(
        line,
        stream,
        entry,
        new Background(interpolate, history.pooled(entry.sampledAt(), id), before));
  }

  private static Refusal noResult(UUID id) {
    return Refusal.unknown("There is no result %s.".formatted(id));
  }

  private static void refuseImpossibleTime(Entry entry, Instant now) {
    boolean standardised = entry instanceof StandardisedTitrant;
    String pointer = standardised ? "#/performedAt" : "#/sampledAt";
    String what = standardised ? "standardisation" : "sample";
    Instant at = entry.sampledAt();
    if (at.isBefore(LONG_AGO)) {
      throw Refusal.impossible(pointer, "The %s is dated %s: check the year.".formatted(what, at));
    }
    if (at.isAfter(now.plus(AHEAD))) {
      throw Refusal.impossible(
          pointer,
          "The %s is dated %s, and here it is %s: check the date and its offset."
              .formatted(what, at, now));
    }
  }

  public PlacedResult result(UUID id) {
    RecordedResult result = results.result(id).orElseThrow(() -> noResult(id));
    Stream stream = productLines.stream(result.stream()).orElseThrow();
    return new PlacedResult(result, stream, monitoring.controls(stream, List.of(id)).get(id));
  }

  /** Results of a stream in the order of sampling, then of recording. */
  public List<PlacedResult> results(
      String line, String slug, Results.Selection selection, int most) {
    Stream stream = productLines.stream(line, slug);
    List<RecordedResult> page = results.select(stream.id(), selection, most);
    Map<UUID, Control> controls =
        monitoring.controls(stream, page.stream().map(RecordedResult::id).toList());
    return page.stream()
        .map(result -> new PlacedResult(result, stream, controls.get(result.id())))
        .toList();
  }
}
