package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.sapotrace.bench.Samples;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.Stream;
import org.sapotrace.washmodel.Forecast;
import org.sapotrace.washmodel.Trend;

/** Foresees when results reach a limit in the course of time. */
@ApplicationScoped
class Trends {

  private static final int MOST = 100;
  private static final String DAYS = "d";
  private static final String WANTED =
      "Results of at least 4 different times in the present phase.";

  private final Logbook logbook;
  private final Samples samples;

  Trends(Logbook logbook, Samples samples) {
    this.logbook = logbook;
    this.samples = samples;
  }

  /** The outlook of a stream, from the latest results of its present phase. */
  Outlook of(Outlook.Kind kind, Stream stream) {
    Instant since = Latest.of(logbook.beginningPhases(stream));
    List<Sample> latest = samples.latest(stream.id(), new Samples.Search(since, false, MOST));
    List<UUID> evidence = latest.stream().map(Sample::result).toList();
    if (latest.isEmpty()) {
      return Outlook.insufficient(kind, "The present phase has no results.", evidence)
          .missing(WANTED);
    }
    Sample last = latest.get(latest.size() - 1);
    List<Trend.Limit> limits = limits(stream, last.sampledAt());
    if (limits.isEmpty()) {
      return UpperLimit.missing(kind, stream, evidence).missing(wantedLimit(stream));
    }
    Outlook outlook = Outlook.of(kind, towards(limits, readings(latest)), evidence);
    return outlook.isInsufficient() ? outlook.missing(WANTED) : outlook;
  }

  /** Removals fail downwards. */
  private static String wantedLimit(Stream stream) {
    return stream.measurand() == Measurand.REMOVAL
        ? "specification.lower of the stream: the least removal that will do."
        : "specification.upper of the stream, or specification.lower.";
  }

  private static List<Trend.Limit> limits(Stream stream, Instant at) {
    List<Trend.Limit> limits = new ArrayList<>();
    stream
        .specificationAt(at)
        .ifPresent(
            specified -> {
              if (specified.upper() != null) {
                limits.add(new Trend.Limit(specified.upper(), true, stream.unit()));
              }
              if (specified.lower() != null) {
                limits.add(new Trend.Limit(specified.lower(), false, stream.unit()));
              }
            });
    return limits;
  }

  private static List<Trend.Reading> readings(List<Sample> latest) {
    Instant first = latest.get(0).sampledAt();
    return latest.stream()
        .map(
            sample ->
                new Trend.Reading(
                    Gathered.day(first, sample.sampledAt()),
                    sample.value(),
                    Objects.requireNonNullElse(sample.standardUncertainty(), 0.0)))
        .toList();
  }

  /** Towards the limit that is reached first, or else towards the first of them. */
  private static Forecast towards(List<Trend.Limit> limits, List<Trend.Reading> readings) {
    List<Forecast> forecasts =
        limits.stream().map(limit -> Trend.towards(readings, limit, DAYS)).toList();
    return forecasts.stream()
        .filter(Forecast.Expected.class::isInstance)
        .map(Forecast.Expected.class::cast)
        .min(Comparator.comparingDouble(expected -> expected.remaining().value()))
        .map(Forecast.class::cast)
        .orElse(forecasts.get(0));
  }
}
