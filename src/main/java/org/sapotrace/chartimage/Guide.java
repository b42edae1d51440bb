package org.sapotrace.chartimage;

import java.awt.BasicStroke;
import java.awt.Color;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.capability.Shape;

/**
 * A line across a distribution: a specification limit or a percentile.
 *
 * @param words names from the longest to the shortest
 * @param value where it stands
 * @param specification whether it is a specification limit, not a percentile
 */
record Guide(List<String> words, double value, boolean specification) {

  /** Those of a capability in ascending order. */
  static List<Guide> of(CapabilityChart chart) {
    List<Guide> guides = new ArrayList<>();
    boolean both = chart.lower() != null && chart.upper() != null;
    add(guides, both ? Level.LOWER_SPECIFICATION : Level.ONLY_SPECIFICATION, chart.lower());
    add(guides, both ? Level.UPPER_SPECIFICATION : Level.ONLY_SPECIFICATION, chart.upper());
    Shape shape = chart.capability().shape();
    guides.add(new Guide(List.of("0.135 %:"), shape.lowPercentile(), false));
    guides.add(new Guide(List.of("median"), shape.median(), false));
    guides.add(new Guide(List.of("99.865 %:"), shape.highPercentile(), false));
    guides.sort(Comparator.comparingDouble(Guide::value));
    return guides;
  }

  private static void add(List<Guide> guides, List<String> words, @Nullable Double value) {
    if (value != null) {
      guides.add(new Guide(words, value, true));
    }
  }

  /** Its names with its value, and an arrow where it lies beyond the picture. */
  List<String> forms(ValueScale scale) {
    String beyond = scale.shows(value) ? "" : value > scale.top() ? " →" : " ←";
    return words.stream().map(word -> text(word, scale.digits()) + beyond).toList();
  }

  /** Its longest name with its value. */
  String text(Digits digits) {
    return text(words.get(0), digits);
  }

  private String text(String word, Digits digits) {
    return word + " " + (specification ? digits.given(value) : digits.write(value));
  }

  Color colour() {
    return specification ? Look.SPECIFICATION : Look.MUTED;
  }

  BasicStroke stroke(double unit) {
    return specification ? Look.dotted(unit) : Look.solid(unit);
  }
}
