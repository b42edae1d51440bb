package org.sapotrace.capability;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A capability as data: everything that a picture of it says, and nothing about how it is drawn.
 *
 * @param headline what it comes to, as a sentence; also the picture's text alternative
 * @param line the name of the product line; null for a stream under no line
 * @param stream the name of the stream
 * @param quantity what is measured, such as {@code soap}
 * @param unit the unit of the results in UCUM code
 * @param limitsRevision the limits by which the latest of the results was judged
 * @param from when the first sample was taken
 * @param to when the last sample was taken
 * @param lower the lower specification limit; null for none
 * @param upper the upper specification limit; null for none, but not both
 * @param values the results in order of time
 * @param capability of these results against these limits
 */
public record CapabilityChart(
    String headline,
    @Nullable String line,
    String stream,
    String quantity,
    String unit,
    int limitsRevision,
    Instant from,
    Instant to,
    @Nullable Double lower,
    @Nullable Double upper,
    List<Double> values,
    Capability capability) {

  public CapabilityChart {
    values = List.copyOf(values);
  }

  /** The results in classes. */
  public Histogram histogram() {
    return Histogram.of(values.stream().mapToDouble(Double::doubleValue).toArray());
  }

  /** How many results lie beyond a specification limit. */
  public long beyond() {
    return values.stream()
        .filter(value -> (lower != null && value < lower) || (upper != null && value > upper))
        .count();
  }
}
