package org.sapotrace.demonstration;

import java.time.LocalTime;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.SamplingPoint;

/** Where samples are taken: a stream on each line that has such a place. */
enum Place {
  BLANK("blank", "Solvent and indicator", SamplingPoint.BLANK, null, 6, "measuring-pipette-1ml"),
  CHECK("check", "Check standard", SamplingPoint.CHECK_STANDARD, null, 7, "measuring-pipette-5ml"),
  CRUDE("crude", "Fuel before the wash", SamplingPoint.CRUDE, null, 8, "burette-10ml"),
  WASHED(
      "washed",
      "Fuel after the wash",
      SamplingPoint.AFTER_WASH,
      "crude",
      11,
      "measuring-pipette-5ml"),
  POLISHED(
      "polished",
      "Fuel after the dry-wash tower",
      SamplingPoint.AFTER_DRY_WASH,
      "washed",
      14,
      "measuring-pipette-2ml"),
  STORED("stored", "Fuel in the tank", SamplingPoint.STORAGE, null, 15, "measuring-pipette-2ml"),
  FLUSH(
      "flush",
      "Methanol from the tower's flush",
      SamplingPoint.FLUSH_METHANOL,
      null,
      6,
      "burette-10ml");

  private final String slug;
  private final String label;
  private final SamplingPoint point;
  private final @Nullable String inlet;
  private final int hour;
  private final String glassware;

  Place(
      String slug,
      String label,
      SamplingPoint point,
      @Nullable String inlet,
      int hour,
      String glassware) {
    this.slug = slug;
    this.label = label;
    this.point = point;
    this.inlet = inlet;
    this.hour = hour;
    this.glassware = glassware;
  }

  String slug() {
    return slug;
  }

  /** The stream of what is removed on the way to this place. */
  String removal() {
    return slug + "-removal";
  }

  String label() {
    return label;
  }

  SamplingPoint point() {
    return point;
  }

  /** The slug of the place before the wash or tower; null for none. */
  @Nullable String inlet() {
    return inlet;
  }

  /** When samples are taken there. */
  LocalTime time(Product line) {
    return LocalTime.of(hour, line.minute());
  }

  String glassware() {
    return glassware;
  }

  /** In what steps its glassware is read, in mL. */
  double step() {
    return switch (this) {
      case BLANK, POLISHED, STORED -> 0.005;
      case CHECK, WASHED -> 0.01;
      case CRUDE, FLUSH -> 0.02;
    };
  }

  /**
   * Whether a line has such a place: the bench checks itself on one line, and one tower is flushed.
   */
  boolean isOn(Product line) {
    return switch (this) {
      case CHECK -> line == Product.SODIUM;
      case FLUSH -> line.tower().wearsOut();
      default -> true;
    };
  }

  /** From how many results its limits come; 0 for none. */
  int baseline() {
    return switch (this) {
      case BLANK, CHECK -> 25;
      case CRUDE, WASHED, POLISHED -> 45;
      case STORED -> 20;
      case FLUSH -> 0;
    };
  }

  /** Whether a sample is taken there on a day. */
  boolean isSampled(int day) {
    return switch (this) {
      case BLANK, CHECK -> day % 2 == 0;
      case CRUDE, WASHED, POLISHED -> true;
      case STORED -> day % 3 == 2;
      case FLUSH -> day == Fault.TOWER.found() + 1;
    };
  }
}
