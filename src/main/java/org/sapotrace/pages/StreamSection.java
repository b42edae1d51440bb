package org.sapotrace.pages;

import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.forecast.Outlook;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Stream;

/**
 * A stream on the review page of its line.
 *
 * @param what it measures, in words
 * @param formPath where a result is entered; null where nobody enters one
 * @param origin where its results come from, where nobody enters them; null elsewhere
 * @param latest its latest result; null where there is none
 * @param limits by what that was judged
 * @param outlook what it is heading for, in a sentence; null where there is nothing to foresee
 * @param missing what would tell more; null for nothing
 * @param chart its latest results; null where there is none
 * @param data address of all its results in the interface
 * @param paper address of the chart to print
 */
public record StreamSection(
    String slug,
    String name,
    String what,
    @Nullable String formPath,
    @Nullable String origin,
    @Nullable LatestResult latest,
    String limits,
    @Nullable String outlook,
    @Nullable String missing,
    @Nullable ShownChart chart,
    String data,
    String paper) {

  /**
   * The latest result of a stream.
   *
   * @param outcome as a style
   * @param advice what to do, in a word or two; null where there is nothing to say but the figure
   * @param judged the outcome and the limit, in words; null where nothing is specified
   */
  public record LatestResult(
      String path,
      String outcome,
      @Nullable String advice,
      String figure,
      @Nullable String judged,
      String batch,
      String sampled) {

    static LatestResult of(Bench.PlacedResult placed, @Nullable Verdict verdict, WallClock clock) {
      RecordedResult result = placed.result();
      return new LatestResult(
          "/results/" + result.id(),
          verdict == null ? "none" : verdict.outcome().id(),
          verdict == null ? null : Words.advice(verdict),
          ResultPage.figure(result.latest().assessment()),
          verdict == null ? null : ResultPage.judged(verdict, placed.stream()),
          result.batch(),
          clock.shown(result.sampledAt()));
    }
  }

  /**
   * A stream as it stands.
   *
   * @param names of the streams of the line, by their slugs
   */
  static StreamSection of(
      Line line, StreamStanding standing, Map<String, String> names, WallClock clock) {
    Stream stream = standing.stream();
    Optional<Outlook> outlook =
        Optional.ofNullable(standing.outlook()).filter(StreamSection::isWorthSaying);
    return new StreamSection(
        stream.slug(),
        stream.name(),
        Words.quantity(line, stream),
        stream.isKeptRemoval() ? null : Words.path(stream),
        stream.isKeptRemoval() ? origin(stream, names) : null,
        standing.latest() == null
            ? null
            : LatestResult.of(standing.latest(), standing.verdict(), clock),
        limits(standing, clock),
        outlook.map(Outlook::reason).orElse(null),
        outlook.map(Outlook::missing).orElse(null),
        standing.latest() == null ? null : ShownChart.ofLatest(standing.chart()),
        "/api/v1" + Words.path(stream) + "/results",
        ShownChart.address(stream, "pdf"));
  }

  /** That a stream has no limit to reach is no news on each visit. */
  private static boolean isWorthSaying(Outlook outlook) {
    return outlook.status() != Outlook.Status.INSUFFICIENT || outlook.kind() != Outlook.Kind.TREND;
  }

  private static String origin(Stream removal, Map<String, String> names) {
    String outlet = names.getOrDefault(removal.outlet(), removal.outlet());
    return removal.inlet() == null
        ? "It is kept up no longer: %s has no inlet any more. What was recorded stays."
            .formatted(outlet)
        : "It follows by itself from the results of %s and %s."
            .formatted(names.getOrDefault(removal.inlet(), removal.inlet()), outlet);
  }

  private static String limits(StreamStanding standing, WallClock clock) {
    LimitsRevision limits = standing.limits();
    if (limits == null) {
      return standing.latest() == null && !standing.chart().limits().isEmpty()
          ? "Its control limits wait for the first result."
          : "No control limits yet: the service lays down trial limits once there are twenty results that differ.";
    }
    return limits.status() == LimitsRevision.Status.TRIAL
        ? "Judged by trial limits of the service."
        : "Judged by the control limits adopted on %s, revision %d."
            .formatted(clock.day(limits.adoptedAt()), limits.revision());
  }
}
