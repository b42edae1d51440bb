package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.sapotrace.attribution.Attribution;
import org.sapotrace.attribution.Cause;
import org.sapotrace.attribution.Change;
import org.sapotrace.attribution.Wanted;
import org.sapotrace.measure.Rounding;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Tells the titrant, the blank, the wash and the feed apart behind a signal. */
@ApplicationScoped
@Transactional
public class WhatMoved {

  private final Charts charts;
  private final ProductLines productLines;
  private final Gathering gathering;
  private final InstantSource clock;

  WhatMoved(Charts charts, ProductLines productLines, Gathering gathering, InstantSource clock) {
    this.charts = charts;
    this.productLines = productLines;
    this.gathering = gathering;
    this.clock = clock;
  }

  /**
   * What is behind a signal, by all evidence on record.
   *
   * @throws Refusal if there is no such signal, or its stream is neither of soap nor of a removal
   */
  public AttributedShift behind(UUID signalId) {
    Signal signal = charts.signal(signalId);
    Stream stream = productLines.stream(signal.stream()).orElseThrow();
    boolean isOfSoap =
        stream.measurand() == Measurand.SOAP || stream.measurand() == Measurand.REMOVAL;
    if (stream.line() == null || !isOfSoap) {
      throw Refusal.conflict(
          "Titrant, blank, wash and feed are told apart behind signals of soap and of removal, and stream %s is of %s."
              .formatted(stream.slug(), stream.measurand().label()));
    }
    Gathered gathered = gathering.around(signal, stream);
    return gathered
        .lacking()
        .map(lacking -> untold(stream, lacking))
        .orElseGet(() -> answer(stream, gathered, gathered.attribution()));
  }

  private AttributedShift untold(Stream stream, String lacking) {
    return new AttributedShift(
        clock.instant(), null, stream.unit(), null, List.of(), Cause.UNDECIDED, lacking, null);
  }

  private AttributedShift answer(Stream stream, Gathered gathered, Attribution found) {
    double toUnit = gathered.toUnit(found.shift());
    Wanted wanted = found.wanted();
    return new AttributedShift(
        clock.instant(),
        found.shift() * toUnit,
        stream.unit(),
        course(gathered, found.change()),
        found.parts().stream()
            .map(
                part ->
                    new AttributedShift.Part(
                        part.cause(),
                        part.share(),
                        part.estimate() * toUnit,
                        part.standardError() * toUnit))
            .toList(),
        found.cause(),
        reason(stream, gathered, found, found.shift() * toUnit),
        wanted == null || gathered.isOver() ? null : wanted(wanted));
  }

  private static AttributedShift.Course course(Gathered gathered, Change change) {
    Instant since = gathered.at(change.day());
    String other = change.shape() == Change.Shape.STEP ? "ramp" : "step";
    return new AttributedShift.Course(
        change.shape(),
        since,
        "A %s fits the results better than a %s: their squares about it are smaller by %s variances."
            .formatted(change.shape().id(), other, Rounding.of(change.gain())));
  }

  private static String reason(Stream stream, Gathered gathered, Attribution found, double shift) {
    String moved = stream.withUnit(Rounding.of(shift));
    return switch (found.cause()) {
      case MEASUREMENT ->
          "The shift of %s is no larger than measuring alone makes.".formatted(moved);
      case UNDECIDED -> undecided(gathered, found, moved) + outlook(gathered, found);
      default -> {
        Attribution.Part part = found.parts().get(0);
        yield "The %s explains %s of the shift of %s, %s standard errors from nothing, and no other part is clearly there."
            .formatted(
                gathered.called(part.cause()),
                Rounding.percent(part.share()),
                moved,
                Rounding.of(Math.abs(part.z())));
      }
    };
  }

  private static String undecided(Gathered gathered, Attribution found, String moved) {
    List<Attribution.Part> clear =
        found.parts().stream().filter(part -> Math.abs(part.z()) > Attribution.CLEAR).toList();
    String why =
        switch (clear.size()) {
          case 0 -> "no part of it is clearly there";
          case 1 ->
              "the %s is clearly part of it, but not most of it"
                  .formatted(gathered.called(clear.get(0).cause()));
          default ->
              "%s are clearly part of it"
                  .formatted(
                      clear.stream()
                          .map(part -> gathered.called(part.cause()))
                          .collect(Collectors.joining(" and ")));
        };
    return "Of the shift of %s nobody can say yet what it is: %s.".formatted(moved, why);
  }

  /** Why no titration is wanted, where none is. */
  private static String outlook(Gathered gathered, Attribution found) {
    if (gathered.isOver()) {
      return " The signal is over, so what is titrated now does not tell of it.";
    }
    return found.wanted() == null ? " No titration that could be made now would decide it." : "";
  }

  private static String wanted(Wanted wanted) {
    String titrant = wanted.titrant();
    String lot = titrant == null ? "" : Lots.lot(titrant);
    String named = lot.isEmpty() ? "this titrant" : "titrant lot " + lot;
    return switch (wanted.kind()) {
      case CHECK_STANDARD -> "Titrate the check standard, three times with %s.".formatted(named);
      case BLANK -> "Titrate three blanks with this titrant, solvent and indicator.";
      case STANDARDISATION, EARLIER_STANDARDISATION ->
          "Standardise %s, three replicates.".formatted(named);
      case CRUDE, WASHED, REMOVAL ->
          "Titrate the fuel before the wash or tower, of the next three batches.";
    };
  }
}
