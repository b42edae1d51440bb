package org.sapotrace.chemistry;

import static org.sapotrace.chemistry.Advice.FLUSH_ON;
import static org.sapotrace.chemistry.Advice.HOLD;
import static org.sapotrace.chemistry.Advice.NONE;
import static org.sapotrace.chemistry.Advice.RELEASE;
import static org.sapotrace.chemistry.Advice.REWASH;

import java.util.List;

/**
 * Where a sample was taken, and what is to be done there: first with a batch that meets its
 * specification, then with one that is above it.
 */
public enum SamplingPoint {
  // Soap is expected before any wash; a high figure points at the reaction.
  CRUDE(
      "crude",
      RELEASE,
      "send the batch on to the wash",
      HOLD,
      "hold the batch and look for the cause in reaction and feedstock"),
  AFTER_WASH(
      "after-wash", RELEASE, "release the batch to the next step", REWASH, "wash the batch again"),
  AFTER_DRY_WASH(
      "after-dry-wash",
      RELEASE,
      "release the batch",
      REWASH,
      "look at the tower, then dry-wash the batch again"),
  STORAGE("storage", RELEASE, "release the batch", HOLD, "hold the batch and do not ship it"),
  // A single clean sample does not clear a tower, so that there is no release here.
  FLUSH_METHANOL(
      "flush-methanol",
      NONE,
      "the tower counts as clean when two samples running meet the limit",
      FLUSH_ON,
      "go on flushing the tower"),
  CHECK_STANDARD(
      "check-standard",
      NONE,
      "the titrations may go on",
      HOLD,
      "hold the results since the last good check and look at titrant and blank"),
  BLANK(
      "blank",
      NONE,
      "the titrations may go on",
      HOLD,
      "hold the results that rest on this blank and look at solvent, indicator and glassware"),
  OTHER("other", RELEASE, "it may be released", HOLD, "hold it until the cause is known");

  /** What to do, as advice and in words for the person at the bench. */
  record Step(Advice advice, String words) {}

  private final String id;
  private final Advice whenMet;
  private final String whenMetInWords;
  private final Advice whenAbove;
  private final String whenAboveInWords;

  SamplingPoint(
      String id, Advice whenMet, String whenMetInWords, Advice whenAbove, String whenAboveInWords) {
    this.id = id;
    this.whenMet = whenMet;
    this.whenMetInWords = whenMetInWords;
    this.whenAbove = whenAbove;
    this.whenAboveInWords = whenAboveInWords;
  }

  /**
   * The sampling point of that name in the interface.
   *
   * @throws IllegalArgumentException for any other name
   */
  public static SamplingPoint named(String id) {
    return ByName.find("sampling point", id, List.of(values()), SamplingPoint::id);
  }

  /** The name in the interface, such as {@code after-dry-wash}. */
  public String id() {
    return id;
  }

  /** Whether soap here is held against {@link Specification#soapDefault} unless told otherwise. */
  public boolean hasSoapDefault() {
    return this == AFTER_WASH || this == AFTER_DRY_WASH || this == STORAGE;
  }

  Step whenMet() {
    return new Step(whenMet, whenMetInWords);
  }

  Step whenAbove() {
    return new Step(whenAbove, whenAboveInWords);
  }

  /** Washing and flushing only take out: for a figure that is too low they are no remedy. */
  Step whenBelow() {
    return whenAbove == HOLD ? whenAbove() : new Step(HOLD, "hold it until the cause is known");
  }
}
