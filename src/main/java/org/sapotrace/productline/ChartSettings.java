package org.sapotrace.productline;

import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Scale;

/**
 * How a stream is charted.
 *
 * @param subgroupSize how many values its results usually have; 1 where it is charted by single
 *     results, and takes no others
 * @param dispersion how the standard deviation of the process is estimated from a baseline
 * @param scale on which scale limits are laid down from now on
 * @param detectors what raises signals
 */
public record ChartSettings(
    int subgroupSize, Dispersion dispersion, Scale scale, Detectors detectors) {

  public static final ChartSettings DEFAULT =
      new ChartSettings(1, Dispersion.MOVING_RANGE, Scale.LINEAR, Detectors.DEFAULT);

  /** Whether results may be subgroups. */
  public boolean isOfSubgroups() {
    return subgroupSize > 1;
  }

  /** The chart by which the stream raises signals. */
  public ControlChart.Kind resultsChart() {
    return isOfSubgroups() ? ControlChart.Kind.MEAN : ControlChart.Kind.INDIVIDUALS;
  }
}
