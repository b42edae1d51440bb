package org.sapotrace.titrant;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.DatedStrength;
import org.sapotrace.measure.Rounding;

/** What whoever uses a titrant lot should know. Days are those of UTC. */
final class LotCautions {

  // How a sentence begins that says of which day something is.
  static final String SAMPLE = "The sample is dated";
  static final String STANDARDISATION = "The standardisation is dated";
  static final String STRENGTH = "This is the strength on";

  private LotCautions() {}

  /**
   * What to know of a strength.
   *
   * @param dated how the sentence begins that says of which day it is
   * @param taken the standardisation that it comes from, or the one nearest in time; null where
   *     there is none
   * @param validity how long that counts without a caution
   */
  static List<String> of(
      LotDeclaration lot,
      String dated,
      Instant at,
      @Nullable DatedStrength taken,
      StandardisationValidity validity) {
    List<String> cautions = ofDates(lot, dated, at);
    if (taken == null) {
      cautions.add(
          "Lot %s was not standardised by then: its nominal normality of %s mol/L counts, as known to within 5 %%."
              .formatted(lot.slug(), Rounding.of(lot.nominalNormality())));
      return cautions;
    }
    Duration apart = Duration.between(taken.performedAt(), at);
    if (apart.abs().compareTo(validity.duration()) > 0) {
      cautions.add(
          "Lot %s was standardised %d days %s, on %s: standardise it anew."
              .formatted(
                  lot.slug(),
                  apart.abs().toDays(),
                  apart.isNegative() ? "later" : "before",
                  day(taken.performedAt())));
    }
    return cautions;
  }

  /**
   * What the days in a lot's life say of something.
   *
   * @param dated how the sentence begins that says of which day it is
   */
  static List<String> ofDates(LotDeclaration lot, String dated, Instant at) {
    List<String> cautions = new ArrayList<>();
    LocalDate day = day(at);
    LocalDate prepared = lot.preparedOn();
    LocalDate opened = lot.openedOn();
    LocalDate expires = lot.expiresOn();
    if (prepared != null && day.isBefore(prepared)) {
      cautions.add(before(lot, dated, day, "prepared", prepared));
    } else if (opened != null && day.isBefore(opened)) {
      cautions.add(before(lot, dated, day, "opened", opened));
    }
    if (expires != null && day.isAfter(expires)) {
      cautions.add(
          "%s %s, and lot %s expired on %s: prepare a new lot."
              .formatted(dated, day, lot.slug(), expires));
    }
    return cautions;
  }

  private static String before(
      LotDeclaration lot, String dated, LocalDate day, String happened, LocalDate then) {
    return "%s %s, and lot %s was %s on %s: check the lot and the dates."
        .formatted(dated, day, lot.slug(), happened, then);
  }

  static LocalDate day(Instant at) {
    return LocalDate.ofInstant(at, ZoneOffset.UTC);
  }
}
