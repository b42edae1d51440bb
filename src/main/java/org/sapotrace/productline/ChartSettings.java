package org.sapotrace.productline;

import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;

/**
 * How a stream is charted.
 *
 * @param dispersion how the standard deviation of the process is estimated from a baseline
 * @param detectors what raises signals
 */
public record ChartSettings(Dispersion dispersion, Detectors detectors) {

  public static final ChartSettings DEFAULT =
      new ChartSettings(Dispersion.MOVING_RANGE, Detectors.DEFAULT);
}
