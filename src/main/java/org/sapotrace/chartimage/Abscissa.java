package org.sapotrace.chartimage;

import java.time.Instant;
import java.util.List;
import org.sapotrace.controlchart.ControlChart;

/** The horizontal axis: where a result or an instant lies, in px from the left of the plot. */
interface Abscissa {

  /** A labelled place; the context is what its neighbours share with it, such as the year. */
  record Tick(double x, String label, String context) {}

  /** Whether nothing has a place, because there are no results. */
  boolean isEmpty();

  double x(ControlChart.Point point);

  /** Where an instant lies, or the nearer edge of the plot where it lies beyond. */
  double x(Instant at);

  /** Round places, at least a given number of pixels apart. */
  List<Tick> ticks(double spacing);
}
