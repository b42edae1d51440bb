package org.sapotrace.washmodel;

/** How what went through a tower is counted. */
public enum Throughput {
  /** In volumes of the bed; soap that was taken up is in g per litre of bed. */
  BED_VOLUMES("bed volumes", "g/L"),
  /** In litres; soap that was taken up is in g. */
  LITRES("L", "g");

  private final String unit;
  private final String uptakeUnit;

  Throughput(String unit, String uptakeUnit) {
    this.unit = unit;
    this.uptakeUnit = uptakeUnit;
  }

  /** Its unit, as people write it. */
  public String unit() {
    return unit;
  }

  String uptakeUnit() {
    return uptakeUnit;
  }
}
