package org.sapotrace.chemistry;

import java.util.List;

/** The balances that a titration may name, each by what it reads to. */
public enum BenchBalance {
  ONE_GRAM("balance-1g", 1),
  TENTH_GRAM("balance-100mg", 0.1),
  /** Assumed for samples. */
  HUNDREDTH_GRAM("balance-10mg", 0.01),
  ONE_MILLIGRAM("balance-1mg", 0.001),
  /** Assumed for primary standards. */
  TENTH_MILLIGRAM("balance-100ug", 0.0001),
  HUNDREDTH_MILLIGRAM("balance-10ug", 0.00001);

  private final String slug;
  private final double readabilityG;

  BenchBalance(String slug, double readabilityG) {
    this.slug = slug;
    this.readabilityG = readabilityG;
  }

  /**
   * The balance of that name.
   *
   * @throws IllegalArgumentException for a name that is not known
   */
  public static BenchBalance named(String slug) {
    return ByName.find("balance", slug, List.of(values()), BenchBalance::slug);
  }

  /** The name in the interface, such as {@code balance-10mg}. */
  public String slug() {
    return slug;
  }

  /** What it reads to, in g. */
  public double readabilityG() {
    return readabilityG;
  }

  /** What it adds to the uncertainty of a weighed portion. */
  public Balance balance() {
    return Balance.readableTo(readabilityG);
  }
}
