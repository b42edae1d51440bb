package org.sapotrace.chemistry;

import java.util.List;

/** What a titrant is made of, and what it is usually dissolved in. */
public enum Reagent {
  HYDROCHLORIC_ACID("hydrochloric-acid", true, Solvent.WATER),
  SULFURIC_ACID("sulfuric-acid", true, Solvent.WATER),
  /** Acid numbers are titrated with it in ethanol or isopropanol: EN 14104. */
  POTASSIUM_HYDROXIDE("potassium-hydroxide", false, Solvent.ALCOHOL),
  SODIUM_HYDROXIDE("sodium-hydroxide", false, Solvent.WATER);

  private final String id;
  private final boolean isAcid;
  private final Solvent solvent;

  Reagent(String id, boolean isAcid, Solvent solvent) {
    this.id = id;
    this.isAcid = isAcid;
    this.solvent = solvent;
  }

  /**
   * The reagent of that name in the interface.
   *
   * @throws IllegalArgumentException for any other name
   */
  public static Reagent named(String id) {
    return ByName.find("reagent", id, List.of(values()), Reagent::id);
  }

  /** The name in the interface, such as {@code hydrochloric-acid}. */
  public String id() {
    return id;
  }

  /** Whether it is an acid; an alkali otherwise. */
  public boolean isAcid() {
    return isAcid;
  }

  /** What it is taken to be dissolved in. */
  public Solvent solvent() {
    return solvent;
  }
}
