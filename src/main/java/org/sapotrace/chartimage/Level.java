package org.sapotrace.chartimage;

import java.awt.Color;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;

/**
 * A line of the chart that is named at the right edge: the centre, a control limit or a
 * specification limit in force at the last result.
 *
 * @param words names from the longest to the shortest, each telling the lines of one chart apart
 * @param value where the line lies
 * @param given whether a person set the value, so that its digits are the person's
 * @param dotted whether the line is a specification limit
 * @param colour of the line and of its name
 */
record Level(List<String> words, double value, boolean given, boolean dotted, Color colour) {

  private static final List<String> UPPER = List.of("upper control limit", "upper limit", "UCL");
  private static final List<String> LOWER = List.of("lower control limit", "lower limit", "LCL");
  private static final List<String> DECISION =
      List.of("decision value", "decision value", "decision");
  private static final List<String> CENTRE = List.of("centre", "centre", "centre");
  static final List<String> ONLY_SPECIFICATION = List.of("specification", "specification", "spec.");
  static final List<String> UPPER_SPECIFICATION =
      List.of("upper specification", "upper spec.", "USL");
  static final List<String> LOWER_SPECIFICATION =
      List.of("lower specification", "lower spec.", "LSL");

  /** The lines to be named, from the top of the picture to its foot. */
  static List<Level> of(ControlChart chart) {
    List<Level> levels = new ArrayList<>();
    ControlChart.Specification specification = chart.specification();
    if (specification != null) {
      boolean both = specification.lower() != null && specification.upper() != null;
      List<String> upper = both ? UPPER_SPECIFICATION : ONLY_SPECIFICATION;
      List<String> lower = both ? LOWER_SPECIFICATION : ONLY_SPECIFICATION;
      add(levels, upper, specification.upper(), true, Look.SPECIFICATION);
      add(levels, lower, specification.lower(), true, Look.SPECIFICATION);
    }
    if (!chart.points().isEmpty()) {
      ControlChart.Point last = chart.points().get(chart.points().size() - 1);
      if (chart.kind() == ControlChart.Kind.CUSUM) {
        add(levels, DECISION, last.upper(), true, Look.LIMIT);
        add(levels, DECISION, last.lower(), true, Look.LIMIT);
      } else {
        add(levels, UPPER, last.upper(), false, Look.LIMIT);
        add(levels, CENTRE, last.centre(), false, Look.MUTED);
        add(levels, LOWER, last.lower(), false, Look.LIMIT);
      }
    }
    // A stable sort: what lies at one height keeps the order above.
    levels.sort((one, other) -> Double.compare(other.value, one.value));
    return levels;
  }

  private static void add(
      List<Level> levels, List<String> words, @Nullable Double value, boolean given, Color colour) {
    if (value != null && Double.isFinite(value)) {
      boolean dotted = colour.equals(Look.SPECIFICATION);
      levels.add(new Level(words, value, given, dotted, colour));
    }
  }

  /** Word and value. */
  String text(int brevity, Digits digits) {
    return words.get(brevity) + " " + (given ? digits.given(value) : digits.write(value));
  }

  /** Word and value, with an arrow where the line lies beyond the picture. */
  String text(int brevity, ValueScale scale) {
    String beyond = scale.shows(value) ? "" : value > scale.top() ? " ↑" : " ↓";
    return text(brevity, scale.digits()) + beyond;
  }
}
