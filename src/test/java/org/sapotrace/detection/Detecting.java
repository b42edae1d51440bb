package org.sapotrace.detection;

import java.util.EnumSet;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;

/** What watches the streams. */
enum Detecting {
  LIMITS_ALONE("limits alone", limits(), limits()),
  DEFAULTS("the defaults", Detectors.DEFAULT, Detectors.DEFAULT_OF_REMOVAL),
  ALL_RULES("all rules", all(), all());

  private final String label;
  private final Detectors usual;
  private final Detectors ofRemoval;

  Detecting(String label, Detectors usual, Detectors ofRemoval) {
    this.label = label;
    this.usual = usual;
    this.ofRemoval = ofRemoval;
  }

  private static Detectors limits() {
    return new Detectors(EnumSet.of(RunRule.BEYOND_LIMITS), null, null);
  }

  private static Detectors all() {
    return new Detectors(EnumSet.allOf(RunRule.class), Ewma.DEFAULT, Cusum.USUAL);
  }

  String label() {
    return label;
  }

  Detectors of(Charted stream) {
    return stream == Charted.REMOVAL ? ofRemoval : usual;
  }
}
