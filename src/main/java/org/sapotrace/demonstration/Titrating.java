package org.sapotrace.demonstration;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.Throughput;
import org.sapotrace.bench.Titration;

/** Titrations at one place of a line: what is read where the truth is known. */
final class Titrating {

  /** The soap in the check standard, in mg/kg. */
  static final double CHECK_STANDARD = 100;

  /** What the bench card says that solvent and indicator consume, in mL. */
  static final double BLANK_ON_CARD = 0.06;

  // How far readings scatter, in mL, and samples of one batch, as parts of it (assumptions).
  private static final double END_POINT = 0.006;
  private static final double SAMPLE = 0.008;
  private static final double WEIGHING = 0.01;

  private final Product line;
  private final Place place;
  private final Chance chance;

  Titrating(Product line, Place place) {
    this.line = line;
    this.place = place;
    chance = new Chance(line + " " + place);
  }

  /** A titration of a sample that holds so much soap. */
  Titration of(String batch, Instant sampledAt, int day, String analyst, double soap) {
    Throughput throughput = place == Place.POLISHED ? line.tower().throughput(day) : null;
    return of(batch, sampledAt, day, analyst, soap, throughput);
  }

  /** The same, of what had gone through tower or flush by then; null where nothing does. */
  Titration of(
      String batch,
      Instant sampledAt,
      int day,
      String analyst,
      double soap,
      @Nullable Throughput throughput) {
    Readings readings =
        new Readings(
            new Readings.Titrant(Bottle.on(day).slug(), null, null),
            BLANK_ON_CARD,
            place.glassware(),
            null,
            replicates(day, soap, Analysts.tooMuch(analyst, day)));
    return new Titration(batch, sampledAt, analyst, readings, throughput, null);
  }

  /** Where little soap is left a sample is titrated twice. */
  private List<Readings.Replicate> replicates(int day, double soap, double tooMuch) {
    int titrations = place == Place.CRUDE || place == Place.FLUSH ? 1 : 2;
    List<Readings.Replicate> replicates = new ArrayList<>();
    for (int i = 0; i < titrations; i++) {
      double portion = rounded(portion() * chance.factor(WEIGHING), 0.01);
      double net = portion * soap * chance.factor(SAMPLE) / mgPerKgTimesGrams(day);
      double read = net + blank(day) + tooMuch + END_POINT * chance.normal();
      replicates.add(replicate(rounded(read, place.step()), portion));
    }
    return replicates;
  }

  /** A blank, in mL. */
  double readBlank(int day) {
    return rounded(blank(day) + END_POINT * chance.normal(), place.step());
  }

  private static double blank(int day) {
    return BLANK_ON_CARD + Fault.BLANK.step(day);
  }

  /** Methanol is measured by volume, at the temperature of the day. */
  private Readings.Replicate replicate(double titrantMl, double portion) {
    return place == Place.FLUSH
        ? new Readings.Replicate(titrantMl, null, null, null, null, portion, 21.0)
        : new Readings.Replicate(titrantMl, null, null, null, portion, null, null);
  }

  /** In g; in mL where methanol is measured. */
  private double portion() {
    return switch (place) {
      case CRUDE -> line.crudePortion();
      case WASHED -> line.washedPortion();
      case CHECK -> 50;
      case FLUSH -> 25;
      default -> 100;
    };
  }

  /** c M 1000: what a mL of the titrant is, as it truly is on that day. */
  private double mgPerKgTimesGrams(int day) {
    double molarMass = line.alkali().soapMolarMass().gramsPerMole();
    return Bottle.on(day).normality(day) * molarMass * 1000;
  }

  /** As it is written down: in whole steps, and no more digits than these have. */
  private static double rounded(double value, double step) {
    return Math.round(Math.round(value / step) * step * 1000) / 1000.0;
  }
}
