package org.sapotrace.titrant.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.chemistry.Reagent;
import org.sapotrace.titrant.LotDeclaration;
import org.sapotrace.titrant.TitrantLot;

@Entity
@Table(name = "titrant_lot")
@NullUnmarked
class LotEntity {

  @Id String slug;
  String reagent;

  @Column(name = "nominal_normality")
  double nominalNormality;

  @Column(name = "prepared_on")
  LocalDate preparedOn;

  @Column(name = "opened_on")
  LocalDate openedOn;

  @Column(name = "expires_on")
  LocalDate expiresOn;

  int version;

  @Column(name = "stream_id")
  UUID streamId;

  void take(TitrantLot lot) {
    LotDeclaration declared = lot.declared();
    slug = declared.slug();
    reagent = declared.reagent().id();
    nominalNormality = declared.nominalNormality();
    preparedOn = declared.preparedOn();
    openedOn = declared.openedOn();
    expiresOn = declared.expiresOn();
    version = lot.version();
    streamId = lot.stream();
  }

  TitrantLot toLot() {
    return new TitrantLot(
        new LotDeclaration(
            slug, Reagent.named(reagent), nominalNormality, preparedOn, openedOn, expiresOn),
        streamId,
        version);
  }
}
