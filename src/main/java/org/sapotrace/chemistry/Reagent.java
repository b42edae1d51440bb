package org.sapotrace.chemistry;

import java.util.Arrays;
import java.util.stream.Collectors;

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
    return Arrays.stream(values())
        .filter(each -> each.id.equals(id))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "The reagent \"%s\" is not known; give one of %s."
                        .formatted(
                            id,
                            Arrays.stream(values())
                                .map(Reagent::id)
                                .collect(Collectors.joining(", ")))));
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
