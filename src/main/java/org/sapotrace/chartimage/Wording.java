package org.sapotrace.chartimage;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Point;
import org.sapotrace.controlchart.RunRule;

/** The words of a picture. */
final class Wording {

  private static final long TWO_DAYS = 2 * 86_400L;

  private final ControlChart chart;

  Wording(ControlChart chart) {
    this.chart = chart;
  }

  String headline() {
    return Typeface.clean(chart.headline());
  }

  /** What is on the vertical axis, such as {@code soap, mg/kg}. */
  String axis() {
    String quantity = Typeface.clean(chart.quantity());
    String unit = Typeface.clean(chart.unit());
    String statistic =
        chart.kind() == ControlChart.Kind.MOVING_RANGE ? "moving range of " + quantity : quantity;
    return unit.isEmpty() ? statistic : statistic + ", " + unit;
  }

  /**
   * Where and when the results come from and how they are judged, piece by piece.
   *
   * @param brief whether several rules are named by their set, or else counted
   * @param name how the names of line and stream are written
   */
  List<String> circumstances(boolean brief, UnaryOperator<String> name) {
    List<String> pieces = new ArrayList<>();
    if (chart.line() != null) {
      pieces.add(name.apply(Typeface.clean(chart.line())));
    }
    pieces.add(name.apply(Typeface.clean(chart.stream())));
    if (!chart.points().isEmpty()) {
      pieces.add(period());
    }
    pieces.add(results());
    pieces.add(limits());
    pieces.add(rules(brief));
    pieces.removeIf(String::isEmpty);
    return pieces;
  }

  private String results() {
    int n = chart.points().size();
    return n == 0 ? "no results yet" : n == 1 ? "1 result" : n + " results";
  }

  private String limits() {
    if (chart.limitsRevision() == null) {
      return "no limits yet";
    }
    String status = chart.limitsStatus() == null ? "" : Typeface.clean(chart.limitsStatus()) + " ";
    return status + "limits, revision " + chart.limitsRevision();
  }

  private String rules(boolean brief) {
    if (chart.kind() == ControlChart.Kind.MOVING_RANGE) {
      // Moving ranges raise no signals.
      return "";
    }
    if (chart.rules().isEmpty()) {
      return "no rules in use";
    }
    if (brief && chart.rules().size() > 1) {
      String set = RunRule.setName(chart.rules());
      return set == null ? chart.rules().size() + " run rules" : "rules: " + set;
    }
    return (chart.rules().size() == 1 ? "rule: " : "rules: ")
        + inOrder(chart.rules()).stream().map(Wording::name).collect(Collectors.joining(", "));
  }

  private String period() {
    Instant first = chart.points().get(0).at();
    Instant last = chart.points().get(chart.points().size() - 1).at();
    if (last.getEpochSecond() - first.getEpochSecond() < TWO_DAYS) {
      String day = write(first, "d MMM uuuu");
      String end = write(last, "d MMM uuuu").equals(day) ? "HH:mm" : "d MMM uuuu HH:mm";
      String until = first.equals(last) ? "" : " – " + write(last, end);
      return write(first, "d MMM uuuu HH:mm") + until + " UTC";
    }
    boolean oneYear = write(first, "uuuu").equals(write(last, "uuuu"));
    return write(first, oneYear ? "d MMM" : "d MMM uuuu") + " – " + write(last, "d MMM uuuu");
  }

  /** What the marks and letters mean, each said only where it is used. */
  List<String> explanations(boolean bars) {
    List<String> pieces = new ArrayList<>();
    for (RunRule rule : signalled()) {
      pieces.add(rule.letter() + "  " + rule.description());
    }
    if (anySignalGoesOn()) {
      pieces.add("diamond without letters: as the one before it");
    }
    if (chart.points().stream().anyMatch(Point::belowDetection)) {
      pieces.add("circle on a tick: no more titrant than the blank");
    }
    if (bars) {
      pieces.add("vertical bar: ± 2 standard uncertainties");
    }
    return pieces;
  }

  /** Whether two results running have the same signals, of which only the first gets letters. */
  private boolean anySignalGoesOn() {
    List<Point> points = chart.points();
    return IntStream.range(1, points.size())
        .anyMatch(
            i ->
                !points.get(i).signals().isEmpty()
                    && points.get(i).signals().equals(points.get(i - 1).signals()));
  }

  /** The letters of the rules that signal at a result. */
  static String letters(Point point) {
    StringBuilder letters = new StringBuilder();
    inOrder(point.signals()).forEach(rule -> letters.append(rule.letter()));
    return letters.toString();
  }

  Set<RunRule> signalled() {
    Set<RunRule> rules = EnumSet.noneOf(RunRule.class);
    chart.points().forEach(point -> rules.addAll(point.signals()));
    return rules;
  }

  /** The sentences that say what the picture shows to whoever cannot see it. */
  String description(List<String> levels) {
    String kind = chart.kind().label() + " chart of ";
    String unit = chart.unit().isBlank() ? "" : " in " + Typeface.clean(chart.unit());
    StringBuilder text = new StringBuilder(kind + Typeface.clean(chart.quantity()) + unit);
    text.append(chart.line() == null ? "" : ", " + Typeface.clean(chart.line()));
    text.append(", ").append(Typeface.clean(chart.stream())).append(": ").append(results());
    text.append(chart.points().isEmpty() ? "" : ", " + period()).append("; ").append(limits());
    text.append("; ").append(rules(false)).append('.');
    if (!levels.isEmpty()) {
      text.append(" Lines: ").append(String.join("; ", levels)).append('.');
    }
    return text.append(' ').append(signals()).toString();
  }

  private String signals() {
    long n = chart.points().stream().filter(point -> !point.signals().isEmpty()).count();
    if (n == 0) {
      return "No result carries a signal.";
    }
    String each =
        signalled().stream()
            .map(rule -> name(rule) + " at " + count(rule))
            .collect(Collectors.joining(", "));
    return (n == 1 ? "1 result carries" : n + " results carry") + " a signal: " + each + ".";
  }

  private long count(RunRule rule) {
    return chart.points().stream().filter(point -> point.signals().contains(rule)).count();
  }

  private static String name(RunRule rule) {
    return rule.id().replace('-', ' ');
  }

  private static List<RunRule> inOrder(Set<RunRule> rules) {
    return rules.stream().sorted().toList();
  }

  private static String write(Instant at, String pattern) {
    LocalDateTime time = LocalDateTime.ofInstant(at, ZoneOffset.UTC);
    return time.format(DateTimeFormatter.ofPattern(pattern, Locale.ENGLISH));
  }
}
