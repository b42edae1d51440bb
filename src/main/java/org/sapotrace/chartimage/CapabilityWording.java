package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.sapotrace.capability.Capability;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.controlchart.PowerTransform;

/** The words of a picture of a capability. */
final class CapabilityWording implements Words {

  private final CapabilityChart chart;
  private final Capability found;

  CapabilityWording(CapabilityChart chart) {
    this.chart = chart;
    found = chart.capability();
  }

  @Override
  public String headline() {
    return Typeface.clean(chart.headline());
  }

  @Override
  public String axis() {
    return "number of results";
  }

  /** What is on the horizontal axis, such as {@code soap, mg/kg}. */
  String across() {
    String unit = chart.unit().equals("1") ? "" : Typeface.clean(chart.unit());
    return Typeface.clean(chart.quantity()) + (unit.isEmpty() ? "" : ", " + unit);
  }

  @Override
  public List<String> circumstances(boolean brief, UnaryOperator<String> name) {
    List<String> pieces = new ArrayList<>();
    if (chart.line() != null) {
      pieces.add(name.apply(Typeface.clean(chart.line())));
    }
    pieces.add(name.apply(Typeface.clean(chart.stream())));
    pieces.add(Wording.period(chart.from(), chart.to()));
    pieces.add(found.n() + " results");
    pieces.add("judged by limits, revision " + chart.limitsRevision());
    pieces.add(
        chart.beyond() == 0
            ? "none beyond the specification"
            : chart.beyond() + " beyond the specification");
    return pieces;
  }

  /** What the marks and the index mean. */
  List<String> explanations() {
    return List.of(
        distribution(),
        "thin lines: 0.135 %, half and 99.865 % of it lie below",
        "dotted: specification",
        "%s 1: the specification stands where %s".formatted(found.indexName(), mark()));
  }

  private String distribution() {
    PowerTransform transform = found.shape().transform();
    return transform == null
        ? "curve: the normal distribution that describes the results"
        : "curve: the distribution that describes the results, normal after a power of "
            + Digits.telling(10, 0.01).write(transform.lambda());
  }

  private String mark() {
    return switch (found.indexName()) {
      case "Cpu" -> "99.865 % lie below";
      case "Cpl" -> "0.135 % lie below";
      default -> "0.135 % lie below or above";
    };
  }

  /** The sentences that say what the picture shows to whoever cannot see it. */
  String description() {
    Digits digits = CapabilityPage.of(chart, 1000, 560).values().digits();
    String lines =
        Guide.of(chart).stream().map(guide -> guide.text(digits)).collect(Collectors.joining("; "));
    return "Capability of %s: %s. %s%s. Lines: %s. %s is at least %s with %s %% confidence."
        .formatted(
            across(),
            String.join("; ", circumstances(false, name -> name)),
            distribution().substring(0, 1).toUpperCase(Locale.ENGLISH),
            distribution().substring(1),
            lines,
            found.indexName(),
            Digits.telling(10, 0.001).write(found.lowerBound()),
            Digits.telling(100, 1).write(100 * found.confidence()));
  }
}
