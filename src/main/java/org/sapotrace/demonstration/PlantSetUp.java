package org.sapotrace.demonstration;

import jakarta.enterprise.context.ApplicationScoped;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Reagent;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.productline.ChartSettings;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.StreamDefinition;
import org.sapotrace.titrant.LotDeclaration;
import org.sapotrace.titrant.Titrants;

/** Defines the lines, their streams and the bottles of titrant. */
@ApplicationScoped
class PlantSetUp {

  /** What a flush must come down to, mg/kg; declared by the plant. */
  private static final double CLEAN_METHANOL = 20;

  private static final String DONE =
      "An invented line of the demonstration plant: its faults are known, and were planted.";
  private static final String BEING_FILLED = "The demonstration plant is being filled in.";

  private final ProductLines productLines;
  private final Titrants titrants;

  PlantSetUp(ProductLines productLines, Titrants titrants) {
    this.productLines = productLines;
    this.titrants = titrants;
  }

  boolean isEmpty() {
    return productLines.linesAfter("", 1).isEmpty() && titrants.lotsAfter("", 1).isEmpty();
  }

  /** Whether somebody began to fill it in, and was stopped. */
  boolean isHalfFilled() {
    return productLines.linesAfter("", Integer.MAX_VALUE).stream()
        .anyMatch(line -> BEING_FILLED.equals(line.notes()));
  }

  /** Defines every line with its streams. */
  void begin() {
    for (Product line : Product.values()) {
      put(line, BEING_FILLED);
      for (Place place : Place.values()) {
        if (place.isOn(line)) {
          productLines.put(stream(line, place), current -> {});
        }
      }
    }
  }

  /** Notes that all of it is there. */
  void end() {
    for (Product line : Product.values()) {
      put(line, DONE);
    }
  }

  private void put(Product line, String notes) {
    productLines.put(
        new Line(line.slug(), line.label(), line.alkali(), 882.0, 1.5, notes, 0), current -> {});
  }

  private static StreamDefinition stream(Product line, Place place) {
    Measurand measurand = place == Place.BLANK ? Measurand.OTHER : Measurand.SOAP;
    return new StreamDefinition(
        line.slug(),
        place.slug(),
        place.label(),
        place.point(),
        measurand,
        place == Place.BLANK ? "mL" : "mg/kg",
        place.inlet(),
        specification(line, place),
        null,
        ChartSettings.DEFAULT);
  }

  /** Null for what the service takes by itself, or for none. */
  private static @Nullable Specification specification(Product line, Place place) {
    Double upper =
        switch (place) {
          case WASHED -> line.washedLimit();
          case FLUSH -> (Double) CLEAN_METHANOL;
          default -> null;
        };
    return upper == null ? null : new Specification(null, upper);
  }

  void open(Bottle bottle, Days days, int day) {
    titrants.put(
        new LotDeclaration(
            bottle.slug(),
            Reagent.HYDROCHLORIC_ACID,
            Bottle.NOMINAL,
            days.date(day).minusDays(7),
            days.date(day),
            days.date(day).plusDays(173)),
        current -> {});
  }
}
