package org.sapotrace.productline.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.productline.Line;

@Entity
@Table(name = "line")
@NullUnmarked
class LineEntity {

  @Id String slug;
  String name;
  String alkali;

  @Column(name = "density15_kg_per_m3")
  Double density15KgPerM3;

  @Column(name = "density15_standard_uncertainty")
  Double density15StandardUncertainty;

  String notes;
  int version;

  void take(Line line) {
    slug = line.slug();
    name = line.name();
    alkali = line.alkali().id();
    density15KgPerM3 = line.density15KgPerM3();
    density15StandardUncertainty = line.density15StandardUncertainty();
    notes = line.notes();
    version = line.version();
  }

  Line toLine() {
    return new Line(
        slug,
        name,
        Alkali.named(alkali),
        density15KgPerM3,
        density15StandardUncertainty,
        notes,
        version);
  }
}
