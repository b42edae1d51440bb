package org.sapotrace.detection;

import java.util.EnumSet;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;

/** The charts that the service keeps, with more or fewer rules. */
enum Detecting implements Watching {
  LIMITS_ALONE("limits alone", limits()),
  DEFAULTS("the defaults", Detectors.DEFAULT),
  ALL_RULES("all rules", all());

  private final String label;
  private final Detectors detectors;

  Detecting(String label, Detectors detectors) {
    this.label = label;
    this.detectors = detectors;
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

  @Override
  public Watch on(Charted stream, double[] baseline) {
    return new ChartWatch(baseline, detectors);
  }
}
