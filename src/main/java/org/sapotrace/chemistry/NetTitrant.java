package org.sapotrace.chemistry;

import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Volume;

/**
 * Titrant less blank, with what can go wrong in delivering and reading both.
 *
 * @param glassware what sample and blank were titrated from
 * @param blank V0, what solvent and indicator alone consume; null where none was titrated, which
 *     counts as 0 mL
 */
record NetTitrant(Glassware glassware, @Nullable Volume blank) {

  /** Refuses glassware that delivers no titrant with {@link IllegalArgumentException}. */
  NetTitrant {
    if (!glassware.kind().deliversTitrant()) {
      throw new IllegalArgumentException(
          "%s cannot deliver titrant; name a burette or a measuring pipette."
              .formatted(glassware.slug()));
    }
  }

  /** V - V0, in mL. */
  double net(Volume titrant, Errors errors) {
    double total =
        titrant.millilitres()
            + errors.of(ErrorSource.READING) * glassware.readingMl()
            + errors.of(ErrorSource.END_POINT) * glassware.endPointMl()
            + errors.of(ErrorSource.TOLERANCE) * glassware.calibrationMl();
    return total - (blank == null ? 0 : blank(blank, errors));
  }

  private double blank(Volume titrated, Errors errors) {
    return titrated.millilitres()
        + errors.of(ErrorSource.BLANK_READING) * glassware.readingMl()
        + errors.of(ErrorSource.BLANK_END_POINT) * glassware.endPointMl();
  }

  /** The standard uncertainty of V - V0, in mL. */
  double standardUncertaintyMl() {
    double each = Math.hypot(glassware.readingMl(), glassware.endPointMl());
    double both = blank == null ? each : Math.sqrt(2) * each;
    return Math.hypot(both, glassware.calibrationMl());
  }

  /** Names to a model what can go wrong here. */
  <R> ErrorModel<R> addTo(ErrorModel<R> model) {
    model.with(ErrorSource.READING, ErrorSource.END_POINT, ErrorSource.TOLERANCE);
    return blank == null
        ? model
        : model.with(ErrorSource.BLANK_READING, ErrorSource.BLANK_END_POINT);
  }
}
