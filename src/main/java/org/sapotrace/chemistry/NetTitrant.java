package org.sapotrace.chemistry;

import org.sapotrace.measure.Volume;

/**
 * Titrant less blank, with what can go wrong in delivering and reading both.
 *
 * @param glassware what sample and blank were titrated from
 * @param blank V0, what solvent and indicator alone consume
 * @param solvent of the titrant
 */
record NetTitrant(Glassware glassware, Blank blank, Solvent solvent) {

  /** Refuses glassware that delivers no titrant with {@link IllegalArgumentException}. */
  NetTitrant {
    if (!glassware.kind().deliversTitrant()) {
      throw new IllegalArgumentException(
          "%s cannot deliver titrant; name a burette or a measuring pipette."
              .formatted(glassware.slug()));
    }
  }

  /** V - V0, in mL, as measured out at the bench. */
  double net(Volume titrant, Errors errors) {
    double total =
        titrant.millilitres()
            + errors.of(ErrorSource.READING) * glassware.readingMl()
            + errors.of(ErrorSource.END_POINT) * glassware.endPointMl()
            + errors.of(ErrorSource.TOLERANCE) * glassware.calibrationMl();
    double ownErrors =
        errors.of(ErrorSource.BLANK_READING) * glassware.readingMl()
            + errors.of(ErrorSource.BLANK_END_POINT) * glassware.endPointMl();
    double scatter = errors.of(ErrorSource.BLANK_SCATTER) * blank.scatterMl(glassware);
    return total - (blank.millilitres() + ownErrors + scatter);
  }

  /** What a volume at the bench comes to at 20 °C, as a factor. */
  double expansion(Errors errors) {
    return 1 + errors.of(ErrorSource.TEMPERATURE) * solvent.relativeUncertainty();
  }

  /** The standard uncertainty of V - V0 at the bench, in mL. */
  double standardUncertaintyMl() {
    double titrated = Math.hypot(glassware.readingMl(), glassware.endPointMl());
    return Math.hypot(
        Math.hypot(titrated, glassware.calibrationMl()), blank.standardUncertaintyMl(glassware));
  }

  /** Names to a model what can go wrong here. */
  <R> ErrorModel<R> addTo(ErrorModel<R> model) {
    model.with(
        ErrorSource.READING, ErrorSource.END_POINT, ErrorSource.TOLERANCE, ErrorSource.TEMPERATURE);
    BlankSeries series = blank.series();
    if (blank.isByItself(glassware)) {
      model.with(ErrorSource.BLANK_READING, ErrorSource.BLANK_END_POINT);
    } else if (series != null) {
      model.with(ErrorSource.BLANK_SCATTER, series.degreesOfFreedom());
    }
    return model;
  }
}
