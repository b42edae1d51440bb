package org.sapotrace.chemistry;

import java.util.EnumMap;
import java.util.Map;

/** The errors made in one titration, each in multiples of its standard uncertainty. */
final class Errors {

  private final Map<ErrorSource, Double> made = new EnumMap<>(ErrorSource.class);

  /** The error made in that respect; 0 where none was. */
  double of(ErrorSource source) {
    Double error = made.get(source);
    return error == null ? 0 : error;
  }

  /** Makes an error, in place of any made before in that respect. */
  void make(ErrorSource source, double error) {
    made.put(source, error);
  }
}
