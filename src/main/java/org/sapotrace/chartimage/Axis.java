package org.sapotrace.chartimage;

import java.util.Locale;
import org.sapotrace.controlchart.ControlChart;

/** What runs along the horizontal axis. */
public enum Axis {
  /** Time: results stand as far apart as their samples were taken. */
  TIME {
    @Override
    Abscissa over(ControlChart chart, double width, double margin) {
      return TimeScale.of(chart, width, margin);
    }
  },
  /** The number of the result, counted from the first that is shown. */
  SEQUENCE {
    @Override
    Abscissa over(ControlChart chart, double width, double margin) {
      return new SequenceScale(chart.points(), width, margin);
    }
  };

  /** The name in the interface, such as {@code sequence}. */
  public String id() {
    return name().toLowerCase(Locale.ROOT);
  }

  abstract Abscissa over(ControlChart chart, double width, double margin);
}
