package org.sapotrace.controlchart;

import java.util.Locale;

/** On which side of the chart, or which way, the results lie for which a run rule holds. */
public enum Side {
  /** Above the centre line, or rising. */
  HIGH,
  /** Below the centre line, or falling. */
  LOW,
  /** No one side: the rule is about both. */
  NONE;

  /** The name in the interface, such as {@code high}. */
  public String id() {
    return name().toLowerCase(Locale.ROOT);
  }
}
