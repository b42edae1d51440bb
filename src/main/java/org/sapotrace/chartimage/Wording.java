package org.sapotrace.chartimage;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.IntSummaryStatistics;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Point;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.SignalRule;

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
        switch (chart.kind()) {
          case INDIVIDUALS -> quantity;
          case MOVING_RANGE -> "moving range of " + transformed() + quantity;
          case MEAN -> mean() + " of " + quantity;
          case RANGE -> "range of " + transformed() + quantity + " within subgroups";
          case STANDARD_DEVIATION ->
              "standard deviation of " + transformed() + quantity + " within subgroups";
          case EWMA -> "moving average (EWMA) of " + quantity;
          case CUSUM -> "cumulative sums of " + quantity;
        };
    if (chart.kind() == ControlChart.Kind.CUSUM) {
      return statistic + ", standard deviations";
    }
    if (chart.kind().showsSpread() && chart.scale() != Scale.LINEAR) {
      return statistic;
    }
    return unit.isEmpty() ? statistic : statistic + ", " + unit;
  }

  private String mean() {
    return switch (chart.scale()) {
      case LINEAR -> "mean";
      case LOG -> "geometric mean";
      case BOX_COX -> "power mean";
    };
  }

  private String transformed() {
    return switch (chart.scale()) {
      case LINEAR -> "";
      case LOG -> "ln ";
      case BOX_COX -> "transformed ";
    };
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
    pieces.addAll(detectors(brief));
    pieces.removeIf(String::isEmpty);
    return pieces;
  }

  private String results() {
    int n = chart.points().size();
    if (n > 0 && sizes().getMax() > 0) {
      return "%d subgroup%s of %s".formatted(n, n == 1 ? "" : "s", sizesInWords());
    }
    return n == 0 ? "no results yet" : n == 1 ? "1 result" : n + " results";
  }

  /** Of how many values the results are the means; 0 for single results. */
  private IntSummaryStatistics sizes() {
    return chart.points().stream()
        .mapToInt(point -> point.size() == null ? 0 : point.size())
        .summaryStatistics();
  }

  private String sizesInWords() {
    IntSummaryStatistics sizes = sizes();
    return sizes.getMin() == sizes.getMax()
        ? String.valueOf(sizes.getMax())
        : sizes.getMin() + " to " + sizes.getMax();
  }

  private String limits() {
    if (chart.limitsRevision() == null) {
      return "no limits yet";
    }
    String status = chart.limitsStatus() == null ? "" : Typeface.clean(chart.limitsStatus()) + " ";
    String scale = chart.scale() == Scale.LINEAR ? "" : " on a " + chart.scale().id() + " scale";
    return status + "limits" + scale + ", revision " + chart.limitsRevision();
  }

  /** What raises signals; of a chart of one statistic only that. */
  private List<String> detectors(boolean brief) {
    return switch (chart.kind()) {
      case INDIVIDUALS, MEAN -> {
        List<String> all = List.of(rules(brief), ewma(brief), cusum(brief));
        List<String> used = all.stream().filter(piece -> !piece.isEmpty()).toList();
        yield used.isEmpty() ? List.of("no rules in use") : used;
      }
      // How far results scatter raises no signals.
      case MOVING_RANGE, RANGE, STANDARD_DEVIATION -> List.of();
      case EWMA -> List.of(ewma(false));
      case CUSUM -> List.of(cusum(false));
    };
  }

  private String rules(boolean brief) {
    Set<RunRule> rules = chart.detectors().rules();
    if (rules.isEmpty()) {
      return "";
    }
    if (brief && rules.size() > 1) {
      String set = RunRule.setName(rules);
      return set == null ? rules.size() + " run rules" : "rules: " + set;
    }
    return (rules.size() == 1 ? "rule: " : "rules: ")
        + rules.stream().map(Wording::name).collect(Collectors.joining(", "));
  }

  private String ewma(boolean brief) {
    Ewma ewma = chart.detectors().ewma();
    return ewma == null ? "" : brief ? "EWMA" : "EWMA of " + ewma.settings();
  }

  private String cusum(boolean brief) {
    Cusum cusum = chart.detectors().cusum();
    return cusum == null ? "" : brief ? "CUSUM" : "CUSUM of " + cusum.settings();
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
    for (SignalRule rule : signalled()) {
      pieces.add(rule.letter() + "  " + rule.description());
    }
    if (anySignalGoesOn()) {
      pieces.add("diamond without letters: as the one before it");
    }
    if (!chart.kind().gathers() && chart.points().stream().anyMatch(Point::belowDetection)) {
      pieces.add("circle on a tick: no more titrant than the blank");
    }
    if (chart.kind().showsResults()
        && chart.points().stream().anyMatch(point -> Double.isNaN(point.onScale()))) {
      pieces.add(
          "at or below 0, where a %s scale has no place: judged as %d standard deviations low"
              .formatted(chart.scale().id(), Plotting.BELOW_THE_SCALE));
    }
    if (chart.limitsRevision() != null && sizes().getMin() < sizes().getMax()) {
      pieces.add("limits step with the number of values, from " + sizesInWords());
    }
    if (chart.kind().showsSpread() && sizes().getMin() == 1) {
      pieces.add("gap: a single value has no " + chart.kind().label().toLowerCase(Locale.ROOT));
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

  /** The rules that signal anywhere, in the order of all rules. */
  List<SignalRule> signalled() {
    Set<SignalRule> rules = new HashSet<>();
    chart.points().forEach(point -> rules.addAll(point.signals()));
    return SignalRule.ALL.stream().filter(rules::contains).toList();
  }

  /** The sentences that say what the picture shows to whoever cannot see it. */
  String description(List<String> levels) {
    String kind = chart.kind().label() + " chart of ";
    String unit = chart.unit().isBlank() ? "" : " in " + Typeface.clean(chart.unit());
    StringBuilder text = new StringBuilder(kind + Typeface.clean(chart.quantity()) + unit);
    text.append(chart.line() == null ? "" : ", " + Typeface.clean(chart.line()));
    text.append(", ").append(Typeface.clean(chart.stream())).append(": ").append(results());
    text.append(chart.points().isEmpty() ? "" : ", " + period()).append("; ").append(limits());
    detectors(false).forEach(piece -> text.append("; ").append(piece));
    text.append('.');
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

  private long count(SignalRule rule) {
    return chart.points().stream().filter(point -> point.signals().contains(rule)).count();
  }

  private static String name(SignalRule rule) {
    return rule.id().replace('-', ' ');
  }

  private static String write(Instant at, String pattern) {
    LocalDateTime time = LocalDateTime.ofInstant(at, ZoneOffset.UTC);
    return time.format(DateTimeFormatter.ofPattern(pattern, Locale.ENGLISH));
  }
}
