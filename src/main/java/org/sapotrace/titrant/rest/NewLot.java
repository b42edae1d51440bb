package org.sapotrace.titrant.rest;

import jakarta.validation.constraints.NotNull;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Reagent;
import org.sapotrace.titrant.LotDeclaration;

/** A titrant lot as a client puts it. */
record NewLot(
    @NotNull Reagent reagent,
    @NotNull Double nominalNormality,
    @Nullable LocalDate preparedOn,
    @Nullable LocalDate openedOn,
    @Nullable LocalDate expiresOn) {

  LotDeclaration toDeclaration(String slug) {
    return new LotDeclaration(slug, reagent, nominalNormality, preparedOn, openedOn, expiresOn);
  }
}
