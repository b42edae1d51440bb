package org.sapotrace.pages;

import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Readings;

/**
 * The readings of one titration in a form.
 *
 * @param number of the titration, from 1
 */
record TypedRun(Typed typed, int number) {

  /** The readings; what is wrong with them is told at their fields. */
  Readings.Replicate read() {
    requireVolume();
    requirePortion();
    return new Readings.Replicate(
        value("titrantMl"),
        value("initialMl"),
        value("finalMl"),
        value("freeAlkaliMl"),
        value("sampleG"),
        value("sampleMl"),
        value("sampleC"));
  }

  private void requireVolume() {
    boolean isStarted = has("initialMl");
    boolean isEnded = has("finalMl");
    if (has("titrantMl") && (isStarted || isEnded)) {
      fault("titrantMl", "Give the titrant, or the burette at start and end, and not both.");
    } else if (isStarted != isEnded) {
      fault(
          isStarted ? "finalMl" : "initialMl", "The burette is read at the start and at the end.");
    } else if (!has("titrantMl") && !isStarted) {
      fault("titrantMl", "How much titrant was used up to the end point?");
    }
  }

  private void requirePortion() {
    boolean isWeighed = has("sampleG");
    boolean isMeasured = has("sampleMl") || has("sampleC");
    if (isWeighed && isMeasured) {
      fault("sampleG", "Give the sample in g, or in mL with °C, and not both.");
    } else if (!isWeighed && !isMeasured) {
      fault("sampleG", "How much sample was titrated?");
    } else if (isMeasured && !has("sampleMl")) {
      fault("sampleMl", "How much sample was that?");
    } else if (isMeasured && !has("sampleC")) {
      fault("sampleC", "How warm was it? 1 °C changes the mass of a volume by 0.08 %.");
    }
  }

  private boolean has(String reading) {
    return typed.has(TitrationFields.of(number, reading));
  }

  private @Nullable Double value(String reading) {
    return typed.number(TitrationFields.of(number, reading));
  }

  private void fault(String reading, String message) {
    typed.fault(TitrationFields.of(number, reading), message);
  }
}
