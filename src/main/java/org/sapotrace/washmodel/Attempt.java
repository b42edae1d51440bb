package org.sapotrace.washmodel;

import java.util.function.Supplier;
import org.hipparchus.exception.MathRuntimeException;

/** A computation upon recorded numbers, among which there may be slips beyond all reason. */
final class Attempt {

  private Attempt() {}

  /** The forecast, or that these numbers allow none: no estimate is finite, or none is found. */
  static Forecast at(Supplier<Forecast> forecast) {
    try {
      return forecast.get();
    } catch (MathRuntimeException | IllegalArgumentException impossible) {
      return new Forecast.Insufficient(
          "Nothing can be estimated from these results: look for a slip among them.");
    }
  }
}
