package org.sapotrace.demonstration;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.Arrays;
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

  /** From so many results the limits of the sodium line's crude are estimated once more. */
  private static final int REESTIMATED_AT = 70;

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

  /** Whether there is desk work on the evening of a day. */
  boolean isBusy(int day) {
    return day == 0
        || day == Bottle.SECOND.opened() - 1
        || Arrays.stream(Fault.values()).anyMatch(fault -> fault.found() == day)
        || Arrays.stream(Place.values()).anyMatch(place -> adoptsOn(place, day));
  }

  /** The desk work. */
  void evening(Days days, int day) {
    for (Product line : Product.values()) {
      for (Place place : Place.values()) {
        if (place.isOn(line) && adoptsOn(place, day)) {
          adopt(line, place);
        }
      }
    }
    if (day == 0) {
      tower(days.at(day, 4), "tower packed", false);
    }
    if (day == Bottle.SECOND.opened() - 1) {
      everywhere(days.at(day, 19), PlantEvent.Kind.TITRANT_CHANGE, "hcl-02", false);
    }
    for (Fault fault : Fault.values()) {
      if (day == fault.found()) {
        Explanation.of(fault).forEach(each -> explain(each, days.at(fault.first(), 0)));
        remedied(fault, days, day);
      }
    }
  }

  private static boolean adoptsOn(Place place, int day) {
    return place.baseline() > 0 && day == lastOfBaseline(place) + GRACE;
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
    boolean again = line == Product.SODIUM && place == Place.CRUDE;
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

  /** What was done, from which on the streams that showed it are looked at afresh. */
  private void remedied(Fault fault, Days days, int day) {
    Instant at = days.at(day, 19);
    switch (fault) {
      case BLANK -> everywhere(at, PlantEvent.Kind.OTHER, "new drum of solvent", true);
      case TITRANT ->
          everywhere(at, PlantEvent.Kind.TITRANT_CHANGE, "hcl-02 stood open: hcl-03", true);
      case WASH ->
          event(
              Product.SODIUM,
              PlantEvent.Kind.MAINTENANCE,
              at,
              "spray nozzles cleaned",
              List.of(Place.WASHED.slug(), Place.WASHED.removal(), Place.POLISHED.slug()),
              true);
      case TOWER -> flushedAndPacked(days, day + 1);
      case ANALYST ->
          event(
              Product.SODIUM,
              PlantEvent.Kind.OTHER,
              at,
              "tw shown the end point",
              List.of(Place.CHECK.slug()),
              true);
    }
  }

  /** Writes the cause to every signal of a stream that the fault explains and that has none yet. */
  private void explain(Explanation explanation, Instant began) {
    charts
        .signalsAfter(
            null,
            explanation.line().slug(),
            explanation.stream(),
            Signal.State.UNEXPLAINED,
            Integer.MAX_VALUE)
        .stream()
        .filter(signal -> explanation.explains(signal, began))
        .forEach(signal -> findings.put(signal.id(), explanation.finding(), current -> {}));
  }

  /** As it is due on a day: flushed from midnight on, and packed before the batch of that day. */
  private void flushedAndPacked(Days days, int day) {
    event(
        Product.POTASSIUM,
        PlantEvent.Kind.MAINTENANCE,
        days.at(day, 0),
        "tower flushed with methanol",
        List.of(Place.POLISHED.slug(), Place.FLUSH.slug()),
        false);
    tower(days.at(day, 12), "tower packed anew", true);
  }

  private void tower(Instant at, String note, boolean isNewPhase) {
    event(
        Product.POTASSIUM,
        PlantEvent.Kind.MEDIA_CHANGE,
        at,
        note,
        List.of(Place.POLISHED.slug(), Place.POLISHED.removal()),
        isNewPhase);
  }

  private void everywhere(Instant at, PlantEvent.Kind kind, String note, boolean isNewPhase) {
    for (Product line : Product.values()) {
      event(line, kind, at, note, null, isNewPhase);
    }
  }

  private void event(
      Product line,
      PlantEvent.Kind kind,
      Instant at,
      String note,
      @Nullable List<String> streams,
      boolean isNewPhase) {
    logbook.record(line.slug(), new Logbook.Entry(kind, at, note, streams, isNewPhase));
  }
}
