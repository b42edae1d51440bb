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

  private LotCautions() {}

  /**
   * What to know of a titration.
   *
   * @param taken the standardisation that it counts by, or the one nearest in time; null where
   *     there is none
   * @param validity how long it counts without a caution
   */
  static List<String> ofTitration(
      LotDeclaration lot,
      Instant sampledAt,
      @Nullable DatedStrength taken,
      StandardisationValidity validity) {
    List<String> cautions = ofDates(lot, "sample", sampledAt);
    if (taken == null) {
      cautions.add(
          "Lot %s was not standardised before the sample was taken: its nominal normality of %s mol/L counts, as known to within 5 %%."
              .formatted(lot.slug(), Rounding.of(lot.nominalNormality())));
      return cautions;
    }
    Duration apart = Duration.between(taken.performedAt(), sampledAt);
    if (apart.abs().compareTo(validity.duration()) > 0) {
      cautions.add(
          "Lot %s was standardised on %s, %d days %s the sample was taken: standardise it anew."
              .formatted(
                  lot.slug(),
                  day(taken.performedAt()),
                  apart.abs().toDays(),
                  apart.isNegative() ? "after" : "before"));
    }
    return cautions;
  }

  /**
   * What the days in a lot's life say of something dated then.
   *
   * @param what it is, such as {@code sample}
   */
  static List<String> ofDates(LotDeclaration lot, String what, Instant at) {
    List<String> cautions = new ArrayList<>();
    LocalDate day = day(at);
    LocalDate prepared = lot.preparedOn();
    LocalDate opened = lot.openedOn();
    LocalDate expires = lot.expiresOn();
    if (prepared != null && day.isBefore(prepared)) {
      cautions.add(before(lot, what, day, "prepared", prepared));
    } else if (opened != null && day.isBefore(opened)) {
      cautions.add(before(lot, what, day, "opened", opened));
    }
    if (expires != null && day.isAfter(expires)) {
      cautions.add(
          "The %s is dated %s, and lot %s expired on %s: prepare a new lot."
              .formatted(what, day, lot.slug(), expires));
    }
    return cautions;
  }

  private static String before(
      LotDeclaration lot, String what, LocalDate day, String happened, LocalDate then) {
    return "The %s is dated %s, and lot %s was %s on %s: check the lot and the dates."
        .formatted(what, day, lot.slug(), happened, then);
  }

  static LocalDate day(Instant at) {
    return LocalDate.ofInstant(at, ZoneOffset.UTC);
  }
}
