package org.sapotrace.demonstration;

/** The bottles of titrant, one after the other; all lines are titrated from the same. */
enum Bottle {
  FIRST("hcl-01", 0, 55, 0.01003),
  /** The one that is left open. */
  SECOND("hcl-02", 56, Fault.TITRANT.found(), 0.00998),
  THIRD("hcl-03", Fault.TITRANT.found() + 1, Days.COUNT - 1, 0.01001);

  static final double NOMINAL = 0.01;

  private static final int FORTNIGHT = 14;

  private final String slug;
  private final int opened;
  private final int last;
  private final double normality;

  Bottle(String slug, int opened, int last, double normality) {
    this.slug = slug;
    this.opened = opened;
    this.last = last;
    this.normality = normality;
  }

  static Bottle on(int day) {
    for (Bottle bottle : values()) {
      if (day <= bottle.last) {
        return bottle;
      }
    }
    throw new IllegalArgumentException("The plant has no day " + day);
  }

  String slug() {
    return slug;
  }

  /** The first day on which it is titrated with. */
  int opened() {
    return opened;
  }

  boolean isOpenedOn(int day) {
    return day == opened;
  }

  /** Every fortnight; while the bottle stands open it is left out, and made up for in the end. */
  boolean isStandardisedOn(int day) {
    boolean isDue = (day - opened) % FORTNIGHT == 0;
    return day == Fault.TITRANT.found() || (isDue && !Fault.TITRANT.isThere(day));
  }

  /** What it is truly worth, in mol/L. */
  double normality(int day) {
    return normality * (1 + Fault.TITRANT.ramp(day));
  }
}
