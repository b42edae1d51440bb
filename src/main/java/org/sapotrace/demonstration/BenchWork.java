package org.sapotrace.demonstration;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.MeasuredElsewhere;
import org.sapotrace.bench.StandardReadings;
import org.sapotrace.bench.Throughput;
import org.sapotrace.chemistry.PrimaryStandard;

/** All that the bench writes down, day by day, as it was read. */
final class BenchWork {

  /** Something written down for a stream. */
  record Written(Product line, Place place, Entry entry) {}

  private record Where(Product line, Place place) {}

  /** Days on which everybody titrates one sample of the check standard. */
  private static final List<Integer> COMPARISONS = List.of(40, 100, 156, 176);

  /** How clean the flush is when it begins, in the end, and how much is held up, in mg/kg and L. */
  private static final double FLUSH_BEGINS = 420;

  private static final double FLUSH_ENDS = 8;
  private static final double FLUSH_HOLD_UP = 220;
  private static final double FLUSH_LITRES_AN_HOUR = 100;
  private static final int FLUSH_SAMPLES = 12;

  /** Of the sodium carbonate. */
  private static final double PURITY = 0.9995;

  private final Days days;
  private final Map<Product, Batches> batches = new EnumMap<>(Product.class);
  private final Map<Where, Titrating> bench = new HashMap<>();
  private final Chance standardising = new Chance("standardising");

  BenchWork(Days days) {
    this.days = days;
    for (Product line : Product.values()) {
      batches.put(line, new Batches(line));
      for (Place place : Place.values()) {
        bench.put(new Where(line, place), new Titrating(line, place));
      }
    }
  }

  /** What is written down on a day, in order of time. */
  List<Written> on(int day) {
    List<Written> written = new ArrayList<>();
    for (Product line : Product.values()) {
      for (Place place : Place.values()) {
        if (place.isOn(line) && place.isSampled(day)) {
          written.addAll(at(line, place, day));
        }
      }
    }
    if (COMPARISONS.contains(day)) {
      written.addAll(comparison(day));
    }
    written.sort(Comparator.comparing(each -> each.entry().sampledAt()));
    return written;
  }

  private List<Written> at(Product line, Place place, int day) {
    return switch (place) {
      case BLANK -> List.of(new Written(line, place, blank(line, day)));
      case FLUSH -> flush(line, day);
      default -> List.of(sample(line, place, day));
    };
  }

  private Written sample(Product line, Place place, int day) {
    String batch =
        switch (place) {
          case CHECK -> "check %03d".formatted(day + 1);
          case STORED -> "tank %03d".formatted(day + 1);
          default -> line.batch(day);
        };
    Entry entry =
        of(line, place)
            .of(
                batch,
                days.at(day, place.time(line)),
                day,
                Analysts.of(place, line, day),
                Objects.requireNonNull(batches.get(line)).soap(place, day));
    return new Written(line, place, entry);
  }

  private Entry blank(Product line, int day) {
    return new MeasuredElsewhere(
        "blank %03d".formatted(day + 1),
        days.at(day, Place.BLANK.time(line)),
        List.of(of(line, Place.BLANK).readBlank(day)),
        null,
        null,
        "read at the bench");
  }

  /** Every analyst titrates the same sample. */
  private List<Written> comparison(int day) {
    Titrating check = of(Product.SODIUM, Place.CHECK);
    return Analysts.all(day).stream()
        .map(
            analyst ->
                check.of(
                    "comparison %03d".formatted(day + 1),
                    days.at(day, 10),
                    day,
                    analyst,
                    Titrating.CHECK_STANDARD))
        .map(entry -> new Written(Product.SODIUM, Place.CHECK, entry))
        .toList();
  }

  /** A flush before the bed is packed anew: C = end + (begin - end) exp(-V / hold-up). */
  private List<Written> flush(Product line, int day) {
    List<Written> written = new ArrayList<>();
    for (int hour = 0; hour < FLUSH_SAMPLES; hour++) {
      double litres = FLUSH_LITRES_AN_HOUR * hour;
      double soap = FLUSH_ENDS + (FLUSH_BEGINS - FLUSH_ENDS) * Math.exp(-litres / FLUSH_HOLD_UP);
      Entry entry =
          of(line, Place.FLUSH)
              .of(
                  "flush %02d".formatted(hour + 1),
                  days.at(day, LocalTime.of(hour, 30)),
                  day,
                  "rb",
                  soap,
                  new Throughput(litres, null));
      written.add(new Written(line, Place.FLUSH, entry));
    }
    return written;
  }

  /** A standardisation: 10 mL of 0.5300 g/L sodium carbonate, three times from a 25 mL burette. */
  StandardReadings standardisation(int day) {
    StandardReadings.Solution solution = new StandardReadings.Solution(0.53, 1000);
    double aliquot = 10;
    double moles =
        PURITY * aliquot * 0.53 / 1000 / PrimaryStandard.SODIUM_CARBONATE.equivalentMass();
    double due = 1000 * moles / Bottle.on(day).normality(day);
    List<StandardReadings.Run> runs = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      double read = Math.round((due + 0.015 * standardising.normal()) * 50) / 50.0;
      runs.add(new StandardReadings.Run(null, solution, aliquot, read));
    }
    return new StandardReadings(
        PrimaryStandard.SODIUM_CARBONATE, PURITY, null, "burette-25ml", null, runs);
  }

  private Titrating of(Product line, Place place) {
    return Objects.requireNonNull(bench.get(new Where(line, place)));
  }
}
