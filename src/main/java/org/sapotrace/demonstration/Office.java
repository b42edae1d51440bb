package org.sapotrace.demonstration;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.Findings;
import org.sapotrace.monitoring.Limits;
import org.sapotrace.monitoring.NewLimits;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.PlantEvent;

/**
 * What those write down who look after the plant: limits, events, and what signals turned out to
 * be.
 */
@ApplicationScoped
class Office {

  /** Limits are adopted a few days after the last result that they need. */
  private static final int GRACE = 5;

  /** From so many results the limits of the waste oil's crude are estimated once more. */
  private static final int REESTIMATED_AT = 90;

  private final Limits limits;
  private final Charts charts;
  private final Findings findings;
  private final Logbook logbook;

  Office(Limits limits, Charts charts, Findings findings, Logbook logbook) {
    this.limits = limits;
    this.charts = charts;
    this.findings = findings;
    this.logbook = logbook;
  }

  /** The desk work on the evening of a day. */
  void evening(Days days, int day) {
    for (Product line : Product.values()) {
      for (Place place : Place.values()) {
        if (place.isOn(line) && place.baseline() > 0 && day == lastOfBaseline(place) + GRACE) {
          adopt(line, place);
        }
      }
    }
    if (day == 0) {
      packed(days, day, false);
    }
    if (day == Bottle.SECOND.opened() - 1) {
      everywhere(days, day, PlantEvent.Kind.TITRANT_CHANGE, "hcl-02 in use from tomorrow");
    }
    for (Fault fault : Fault.values()) {
      if (day == fault.found()) {
        found(fault, days);
      }
    }
  }

  /** The day on which the last sample of a baseline is taken. */
  private static int lastOfBaseline(Place place) {
    int taken = 0;
    int day = -1;
    while (taken < place.baseline()) {
      day++;
      taken += place.isSampled(day) ? 1 : 0;
    }
    return day;
  }

  private void adopt(Product line, Place place) {
    boolean again = line == Product.WASTE_OIL && place == Place.CRUDE;
    limits.adopt(
        line.slug(),
        place.slug(),
        new NewLimits(
            new NewLimits.First(place.baseline()),
            null,
            List.of(),
            null,
            "the first %d results, a quiet time".formatted(place.baseline()),
            again ? List.of(REESTIMATED_AT) : List.of()));
  }

  private void found(Fault fault, Days days) {
    int day = fault.found();
    switch (fault) {
      case BLANK -> everywhere(days, day, PlantEvent.Kind.OTHER, "new drum of isopropanol");
      case TITRANT ->
          everywhere(days, day, PlantEvent.Kind.TITRANT_CHANGE, "hcl-02 had stood open; hcl-03");
      case WASH ->
          event(
              Product.SODIUM,
              days.at(day, 19),
              PlantEvent.Kind.MAINTENANCE,
              "spray nozzles of the wash cleaned",
              List.of(Place.WASHED.slug(), Place.WASHED.removal()),
              false);
      case TOWER -> packed(days, day, true);
      case ANALYST ->
          event(
              Product.SODIUM,
              days.at(day, 19),
              PlantEvent.Kind.OTHER,
              "tw shown where the end point is",
              List.of(Place.CHECK.slug()),
              false);
    }
    Explanation.of(fault).forEach(each -> explain(each, days.at(fault.first(), 0)));
  }

  /** Writes the cause to every signal of a stream that was raised since and has none yet. */
  private void explain(Explanation explanation, Instant since) {
    charts
        .signalsAfter(
            null,
            explanation.line().slug(),
            explanation.stream(),
            Signal.State.UNEXPLAINED,
            Integer.MAX_VALUE)
        .stream()
        .filter(signal -> !signal.openedAt().isBefore(since))
        .forEach(signal -> findings.put(signal.id(), explanation.finding(), current -> {}));
  }

  private void packed(Days days, int day, boolean isNewPhase) {
    event(
        Product.POTASSIUM,
        days.at(day, isNewPhase ? 20 : 4),
        PlantEvent.Kind.MEDIA_CHANGE,
        isNewPhase ? "tower flushed and packed anew" : "tower packed",
        List.of(Place.POLISHED.slug(), Place.POLISHED.removal()),
        isNewPhase);
  }

  private void everywhere(Days days, int day, PlantEvent.Kind kind, String note) {
    for (Product line : Product.values()) {
      event(line, days.at(day, 19), kind, note, null, false);
    }
  }

  private void event(
      Product line,
      Instant at,
      PlantEvent.Kind kind,
      String note,
      @Nullable List<String> streams,
      boolean isNewPhase) {
    logbook.record(line.slug(), new Logbook.Entry(kind, at, note, streams, isNewPhase));
  }
}
