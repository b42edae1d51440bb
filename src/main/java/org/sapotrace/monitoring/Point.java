package org.sapotrace.monitoring;

/**
 * A result in its place on the chart.
 *
 * @param position counting from 1, in the order of sampling, then of recording
 */
public record Point(int position, ChartedResult result) {

  Place place() {
    return new Place(result.sampledAt(), result.result());
  }
}
