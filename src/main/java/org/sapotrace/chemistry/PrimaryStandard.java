package org.sapotrace.chemistry;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;

/** A substance so pure and stable that a mass of it says how many moles react. */
public enum PrimaryStandard {
  /** Na2CO3, dried; takes two H+. */
  SODIUM_CARBONATE(
      "sodium-carbonate",
      (2 * AtomicWeights.SODIUM + AtomicWeights.CARBON + 3 * AtomicWeights.OXYGEN) / 2,
      true),
  /** Tris(hydroxymethyl)aminomethane; takes one H+. Handbook value. */
  TRIS("tris", 121.135, true),
  /** Potassium hydrogen phthalate; gives one H+. Handbook value. */
  POTASSIUM_HYDROGEN_PHTHALATE("potassium-hydrogen-phthalate", 204.22, false);

  private final String id;
  private final double equivalentMass;
  private final boolean isForAcids;

  PrimaryStandard(String id, double equivalentMass, boolean isForAcids) {
    this.id = id;
    this.equivalentMass = equivalentMass;
    this.isForAcids = isForAcids;
  }

  /**
   * The standard of that name in the interface.
   *
   * @throws IllegalArgumentException for any other name
   */
  public static PrimaryStandard named(String id) {
    return ByName.find("primary standard", id, List.of(values()), PrimaryStandard::id);
  }

  /** The name in the interface, such as {@code sodium-carbonate}. */
  public String id() {
    return id;
  }

  /** The mass that takes or gives one mole of H+, in g/mol. Its uncertainty is negligible. */
  public double equivalentMass() {
    return equivalentMass;
  }

  /**
   * Refuses a reagent that does not react with it.
   *
   * @throws IllegalArgumentException naming the standards that do
   */
  public void checkSuits(Reagent reagent) {
    if (isForAcids == reagent.isAcid()) {
      return;
    }
    throw new IllegalArgumentException(
        "%s cannot be standardised on %s; use %s."
            .formatted(
                reagent.id(),
                id,
                ids(
                    Arrays.stream(values())
                        .filter(each -> each.isForAcids == reagent.isAcid())
                        .toList())));
  }

  private static String ids(List<PrimaryStandard> standards) {
    return standards.stream().map(PrimaryStandard::id).collect(Collectors.joining(", "));
  }
}
