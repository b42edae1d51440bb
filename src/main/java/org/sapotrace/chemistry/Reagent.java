package org.sapotrace.chemistry;

import java.util.List;

/** What a titrant is made of. */
public enum Reagent {
  HYDROCHLORIC_ACID("hydrochloric-acid", true),
  SULFURIC_ACID("sulfuric-acid", true),
  POTASSIUM_HYDROXIDE("potassium-hydroxide", false),
  SODIUM_HYDROXIDE("sodium-hydroxide", false);

  private final String id;
  private final boolean isAcid;

  Reagent(String id, boolean isAcid) {
    this.id = id;
    this.isAcid = isAcid;
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
}
