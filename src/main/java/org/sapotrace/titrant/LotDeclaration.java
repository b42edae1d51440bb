package org.sapotrace.titrant;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Reagent;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.measure.Rounding;
import org.sapotrace.refusal.Refusal;

/**
 * What somebody says of a titrant lot: one bottle or preparation of a titrant.
 *
 * @param slug its name in addresses
 * @param reagent what it is made of
 * @param nominalNormality what it is meant to be in mol/L, from 0.0001 to 5, both included
 * @param preparedOn the day on which it was made up; null where nobody said
 * @param openedOn the day on which it was first used; null likewise
 * @param expiresOn the last day on which it is good; null likewise
 */
public record LotDeclaration(
    String slug,
    Reagent reagent,
    double nominalNormality,
    @Nullable LocalDate preparedOn,
    @Nullable LocalDate openedOn,
    @Nullable LocalDate expiresOn) {

  /** How far the normality may lie from the nominal one, as a part of it. */
  static final double TOLERANCE = 0.05;

  private static final double LEAST = 0.0001;
  private static final double MOST = 5;

  public LotDeclaration {
    if (!(nominalNormality >= LEAST && nominalNormality <= MOST)) {
      throw Refusal.impossible(
          "#/nominalNormality",
          "The nominal normality is %s mol/L; it must be from %s to %s mol/L: check the unit."
              .formatted(Rounding.of(nominalNormality), Rounding.of(LEAST), Rounding.of(MOST)));
    }
    inOrder("#/openedOn", "was opened", openedOn, "was prepared", preparedOn);
    inOrder("#/expiresOn", "expires", expiresOn, "was prepared", preparedOn);
    inOrder("#/expiresOn", "expires", expiresOn, "was opened", openedOn);
  }

  /** What the normality should be: within 5 % of the nominal one (common practice). */
  public Specification tolerance() {
    return new Specification(
        nominalNormality * (1 - TOLERANCE), nominalNormality * (1 + TOLERANCE));
  }

  /** Whether figures found with this lot mean the same by the other's words. */
  boolean isTheSameTitrantAs(LotDeclaration other) {
    return reagent == other.reagent && nominalNormality == other.nominalNormality;
  }

  private static void inOrder(
      String pointer,
      String what,
      @Nullable LocalDate later,
      String before,
      @Nullable LocalDate earlier) {
    if (later != null && earlier != null && later.isBefore(earlier)) {
      throw Refusal.impossible(
          pointer,
          "The lot %s on %s, before it %s on %s: check both dates."
              .formatted(what, later, before, earlier));
    }
  }
}
