package org.sapotrace.titrant.rest;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Reagent;
import org.sapotrace.titrant.LotDeclaration;
import org.sapotrace.titrant.TitrantLot;

/** A titrant lot as it is answered. */
record LotView(
    String lot,
    Reagent reagent,
    double nominalNormality,
    @Nullable LocalDate preparedOn,
    @Nullable LocalDate openedOn,
    @Nullable LocalDate expiresOn) {

  static LotView of(TitrantLot lot) {
    LotDeclaration declared = lot.declared();
    return new LotView(
        declared.slug(),
        declared.reagent(),
        declared.nominalNormality(),
        declared.preparedOn(),
        declared.openedOn(),
        declared.expiresOn());
  }
}
