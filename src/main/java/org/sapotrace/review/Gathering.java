package org.sapotrace.review;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Results;
import org.sapotrace.bench.StreamPrecision;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.ledger.Archive;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.PointSelection;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.PlantEvents;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Gathers what is on record of a line in a period. */
@ApplicationScoped
class Gathering {

  /** So many results a review holds at most; more would be no reading matter. */
  static final int MOST_RESULTS = 20_000;

  private static final int AT_ONCE = 1000;

  private final ProductLines productLines;
  private final Results results;
  private final Charts charts;
  private final StreamPrecision precision;
  private final Logbook logbook;
  private final Archive archive;
  private final LotHistory lots;

  Gathering(
      ProductLines productLines,
      Results results,
      Charts charts,
      StreamPrecision precision,
      Logbook logbook,
      Archive archive,
      LotHistory lots) {
    this.productLines = productLines;
    this.results = results;
    this.charts = charts;
    this.precision = precision;
    this.logbook = logbook;
    this.archive = archive;
    this.lots = lots;
  }

  /**
   * What is on record.
   *
   * @throws Refusal where it is too much for a review
   */
  LineReview of(Line line, Period period) {
    List<StreamReview> reviews = new ArrayList<>();
    List<Stream> silent = new ArrayList<>();
    int room = MOST_RESULTS;
    for (Stream stream : productLines.streamsAfter(line.slug(), "", Integer.MAX_VALUE)) {
      List<RecordedResult> found = results(stream, period, room);
      room -= found.size();
      if (found.isEmpty()) {
        silent.add(stream);
      } else {
        reviews.add(review(line, stream, period, found));
      }
    }
    PlantEvents.Selection ofPeriod = new PlantEvents.Selection(period.from(), period.to(), null);
    return new LineReview(
        line,
        period,
        reviews,
        silent,
        lots.of(lotsOf(reviews), line, period),
        logbook.events(line.slug(), ofPeriod, Integer.MAX_VALUE));
  }

  private StreamReview review(Line line, Stream stream, Period period, List<RecordedResult> found) {
    PointSelection points = new PointSelection(null, period.from(), period.to());
    List<Signal> signals =
        charts.signalsAfter(null, line.slug(), stream.slug(), null, Integer.MAX_VALUE).stream()
            .filter(signal -> period.meets(signal.openedAt(), signal.lastSampledAt()))
            .toList();
    return new StreamReview(
        charts.chart(stream, points, null),
        found,
        signals,
        precision.of(line.slug(), stream.slug(), period.from(), period.to()).report(),
        archive.changes(stream.id()));
  }

  private List<RecordedResult> results(Stream stream, Period period, int room) {
    List<RecordedResult> found = new ArrayList<>();
    Results.Place after = null;
    List<RecordedResult> page;
    do {
      Results.Selection next = new Results.Selection(period.from(), period.to(), after);
      page = results.select(stream.id(), next, AT_ONCE);
      found.addAll(page);
      if (found.size() > room) {
        throw Refusal.impossible(
            "The line has more than %d results in that period: ask for a shorter one, or for several reviews."
                .formatted(MOST_RESULTS));
      }
      after =
          page.isEmpty()
              ? null
              : new Results.Place(
                  page.get(page.size() - 1).sampledAt(), page.get(page.size() - 1).id());
    } while (page.size() == AT_ONCE);
    return found;
  }

  private static Set<String> lotsOf(List<StreamReview> reviews) {
    return reviews.stream()
        .flatMap(review -> review.counting().stream())
        .map(result -> result.latest().assessment().titrant())
        .filter(Objects::nonNull)
        .map(UsedTitrant::lot)
        .collect(Collectors.toSet());
  }
}
