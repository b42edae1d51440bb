package org.sapotrace.productline;

import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Scale;

/**
 * How a stream is charted.
 *
 * @param dispersion how the standard deviation of the process is estimated from a baseline
 * @param scale on which scale limits are laid down from now on
 * @param detectors what raises signals
 */
public record ChartSettings(Dispersion dispersion, Scale scale, Detectors detectors) {

  public static final ChartSettings DEFAULT =
      new ChartSettings(Dispersion.MOVING_RANGE, Scale.LINEAR, Detectors.DEFAULT);

  private static final ChartSettings DEFAULT_OF_REMOVAL =
      new ChartSettings(Dispersion.MOVING_RANGE, Scale.LINEAR, Detectors.DEFAULT_OF_REMOVAL);

  /** How a stream is charted unless somebody chooses otherwise. */
  public static ChartSettings usual(Measurand measurand) {
    return measurand == Measurand.REMOVAL ? DEFAULT_OF_REMOVAL : DEFAULT;
  }
}
