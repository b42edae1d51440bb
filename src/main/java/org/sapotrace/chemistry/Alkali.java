package org.sapotrace.chemistry;

import static org.sapotrace.chemistry.AtomicWeights.CARBON;
import static org.sapotrace.chemistry.AtomicWeights.HYDROGEN;
import static org.sapotrace.chemistry.AtomicWeights.OXYGEN;

import java.util.List;
import org.sapotrace.measure.MolarMass;

/** The alkali a product is made with, and so the metal of its soap. */
public enum Alkali {
  /** Sodium hydroxide or methoxide; soap is expressed as sodium oleate, C18H33O2Na. */
  SODIUM("sodium", AtomicWeights.SODIUM),
  /** Potassium hydroxide or methoxide; soap is expressed as potassium oleate, C18H33O2K. */
  POTASSIUM("potassium", AtomicWeights.POTASSIUM);

  private static final double OLEATE = 18 * CARBON + 33 * HYDROGEN + 2 * OXYGEN;

  private final String id;
  private final double metal;

  Alkali(String id, double metal) {
    this.id = id;
    this.metal = metal;
  }

  /**
   * The alkali of that name in the interface.
   *
   * @throws IllegalArgumentException for any other name
   */
  public static Alkali named(String id) {
    return ByName.find("alkali", id, List.of(values()), Alkali::id);
  }

  /** The name in the interface, and the metal's name: {@code sodium} or {@code potassium}. */
  public String id() {
    return id;
  }

  /** What soap is expressed as: {@code sodium oleate} or {@code potassium oleate}. */
  public String soapName() {
    return id + " oleate";
  }

  /** The formula of the hydroxide: {@code NaOH} or {@code KOH}. */
  public String hydroxideFormula() {
    return this == SODIUM ? "NaOH" : "KOH";
  }

  /** The molar mass of the metal. */
  public MolarMass metalMolarMass() {
    return new MolarMass(metal);
  }

  /** The molar mass of the soap: 304.450 g/mol sodium oleate, 320.558 g/mol potassium oleate. */
  public MolarMass soapMolarMass() {
    return new MolarMass(OLEATE + metal);
  }

  /** The molar mass of the hydroxide: 39.997 g/mol NaOH, 56.105 g/mol KOH. */
  public MolarMass hydroxideMolarMass() {
    return new MolarMass(metal + OXYGEN + HYDROGEN);
  }
}
