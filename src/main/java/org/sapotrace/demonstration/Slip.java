package org.sapotrace.demonstration;

import java.util.List;
import java.util.Optional;
import org.sapotrace.bench.Correction;
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.Titration;

/** What happens at a bench: something wrong is written down, and put right later. */
enum Slip {
  /** A 4 was read as a 7, say. */
  MISREAD(Product.POTASSIUM, Place.CRUDE, 82) {
    @Override
    double read(double titrantMl) {
      return titrantMl + 3;
    }

    @Override
    Correction correction(Titration right) {
      return new Correction(
          "the burette was misread; the bench book has %s mL"
              .formatted(right.readings().replicates().get(0).titrantMl()),
          new Correction.Retitrated(right));
    }
  },
  /** The sample bottle still held something of the crude. */
  BOTTLE_NOT_RINSED(Product.WASTE_OIL, Place.STORED, 86) {
    @Override
    double read(double titrantMl) {
      return titrantMl + 0.3;
    }

    @Override
    Correction correction(Titration right) {
      return new Correction("sample bottle had not been rinsed", new Correction.Withdrawn());
    }
  };

  private final Product line;
  private final Place place;
  private final int day;

  Slip(Product line, Place place, int day) {
    this.line = line;
    this.place = place;
    this.day = day;
  }

  static Optional<Slip> at(Product line, Place place, int day) {
    return List.of(values()).stream()
        .filter(slip -> slip.line == line && slip.place == place && slip.day == day)
        .findFirst();
  }

  /** What is written down in place of what was to be read. */
  abstract double read(double titrantMl);

  /** How it is put right. */
  abstract Correction correction(Titration right);

  /** The titration as it is written down. */
  Titration written(Titration right) {
    Readings read = right.readings();
    return new Titration(
        right.batch(),
        right.sampledAt(),
        right.analyst(),
        new Readings(
            read.titrant(),
            read.blankMl(),
            read.glassware(),
            read.balance(),
            read.replicates().stream().map(this::written).toList()),
        right.throughput(),
        right.inletMgPerKg());
  }

  private Readings.Replicate written(Readings.Replicate right) {
    Double titrantMl = right.titrantMl();
    return titrantMl == null
        ? right
        : new Readings.Replicate(
            read(titrantMl), null, null, null, right.sampleG(), right.sampleMl(), right.sampleC());
  }
}
