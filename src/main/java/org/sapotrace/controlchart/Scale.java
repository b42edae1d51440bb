package org.sapotrace.controlchart;

/** The scale on which results are plotted and judged. */
public enum Scale {
  /** As they are. */
  LINEAR("linear"),
  /** By their natural logarithms, for results that are skewed and above 0. */
  LOG("log"),
  /** By the power that makes the baseline most nearly normal; see {@link PowerTransform}. */
  BOX_COX("box-cox");

  private final String id;

  Scale(String id) {
    this.id = id;
  }

  /** The name in the interface, such as {@code box-cox}. */
  public String id() {
    return id;
  }

  /**
   * The scale with this name in the interface.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Scale named(String id) {
    for (Scale scale : values()) {
      if (scale.id.equals(id)) {
        return scale;
      }
    }
    throw new IllegalArgumentException(
        "There is no scale \"" + id + "\". Use linear, log or box-cox.");
  }
}
