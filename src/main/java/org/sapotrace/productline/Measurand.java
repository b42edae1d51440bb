package org.sapotrace.productline;

import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What a stream measures, and the unit that goes with it. */
public enum Measurand {
  /** Soap, as oleate of the line's alkali. */
  SOAP("soap", "mg/kg", true),
  /** Free alkali, as hydroxide of the line's alkali. */
  FREE_ALKALI("free-alkali", "mg/kg", true),
  /** Acid number, as potassium hydroxide. */
  ACID_NUMBER("acid-number", "mg/g", true),
  /** Free fatty acid, as oleic acid. */
  FREE_FATTY_ACID("free-fatty-acid", "%", true),
  /** Normality of a titrant. */
  TITRANT_STRENGTH("titrant-strength", "mol/L", true),
  /** Natural logarithm of inlet over outlet of a wash or tower. */
  REMOVAL("removal", "1", false),
  /** Anything else; its unit is the client's choice. */
  OTHER("other", null, false);

  private final String id;
  private final @Nullable String unit;
  private final boolean nonNegative;

  Measurand(String id, @Nullable String unit, boolean nonNegative) {
    this.id = id;
    this.unit = unit;
    this.nonNegative = nonNegative;
  }

  /** The name in the interface, such as {@code free-alkali}. */
  public String id() {
    return id;
  }

  /** The name for people, such as {@code free alkali}. */
  public String label() {
    return id.replace('-', ' ');
  }

  /** The UCUM code of the only unit it is recorded in; empty where any unit goes. */
  public Optional<String> unit() {
    return Optional.ofNullable(unit);
  }

  /**
   * Whether the true value cannot be negative (a measured one can), so that a lower control limit
   * at or below zero says nothing.
   */
  public boolean nonNegative() {
    return nonNegative;
  }

  /**
   * The measurand of that name.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Measurand named(String id) {
    return Arrays.stream(values())
        .filter(measurand -> measurand.id.equals(id))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("There is no measurand " + id + "."));
  }
}
