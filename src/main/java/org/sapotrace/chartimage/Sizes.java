package org.sapotrace.chartimage;

import java.util.IntSummaryStatistics;
import org.sapotrace.controlchart.ControlChart;

/**
 * Of how many values the results of a chart are the means.
 *
 * @param least of them; 0 for single results
 * @param most of them; 0 for single results
 */
record Sizes(int least, int most) {

  static Sizes of(ControlChart chart) {
    IntSummaryStatistics sizes =
        chart.points().stream()
            .mapToInt(point -> point.size() == null ? 0 : point.size())
            .summaryStatistics();
    return sizes.getCount() == 0 ? new Sizes(0, 0) : new Sizes(sizes.getMin(), sizes.getMax());
  }

  boolean differ() {
    return least < most;
  }

  String words() {
    return differ() ? least + " to " + most : String.valueOf(most);
  }
}
