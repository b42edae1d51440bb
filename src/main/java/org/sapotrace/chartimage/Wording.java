package org.sapotrace.chartimage;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.SignalRule;

/** The words of a picture. */
final class Wording implements Words {

  private static final long TWO_DAYS = 2 * 86_400L;

  private final ControlChart chart;

  Wording(ControlChart chart) {
    this.chart = chart;
  }

  @Override
  public String headline() {
    return Typeface.clean(chart.headline());
  }

  @Override
  public String axis() {
    String quantity = Typeface.clean(chart.quantity());
    String unit = unit();
    String statistic =
        switch (chart.kind()) {
          case INDIVIDUALS -> quantity;
          case MOVING_RANGE -> "moving range of " + transformed() + quantity;
          case EWMA -> "moving average (EWMA) of " + quantity;
          case CUSUM -> "cumulative sums of " + quantity;
        };
    if (chart.kind() == ControlChart.Kind.CUSUM) {
      return statistic + ", standard deviations";
    }
    if (chart.kind() == ControlChart.Kind.MOVING_RANGE && chart.scale() != Scale.LINEAR) {
      return statistic;
    }
    return unit.isEmpty() ? statistic : statistic + ", " + unit;
  }

  /** As people write it: UCUM has 1 for a plain number. */
  private String unit() {
    return chart.unit().equals("1") ? "" : Typeface.clean(chart.unit());
  }

  private String transformed() {
    return switch (chart.scale()) {
      case LINEAR -> "";
      case LOG -> "ln ";
      case BOX_COX -> "transformed ";
    };
  }

  /** In brief, several rules are named by their set, or else counted. */
  @Override
  public List<String> circumstances(boolean brief, UnaryOperator<String> name) {
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
    return chart.points().isEmpty() ? "no results yet" : results(chart.points().size());
  }

  private static String results(int n) {
    return n == 1 ? "1 result" : n + " results";
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
      case INDIVIDUALS -> {
        List<String> all = List.of(rules(brief), ewma(brief), cusum(brief));
        List<String> used = all.stream().filter(piece -> !piece.isEmpty()).toList();
        yield used.isEmpty() ? List.of("no rules in use") : used;
      }
      // Moving ranges raise no signals.
      case MOVING_RANGE -> List.of();
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
    return period(chart.points().get(0).at(), chart.points().get(chart.points().size() - 1).at());
  }

  /** From when to when, as short as can be understood. */
  static String period(Instant first, Instant last) {
    if (last.getEpochSecond() - first.getEpochSecond() < TWO_DAYS) {
      String day = write(first, "d MMM uuuu");
      String end = write(last, "d MMM uuuu").equals(day) ? "HH:mm" : "d MMM uuuu HH:mm";
      String until = first.equals(last) ? "" : " – " + write(last, end);
      return write(first, "d MMM uuuu HH:mm") + until + " UTC";
    }
    boolean oneYear = write(first, "uuuu").equals(write(last, "uuuu"));
    return write(first, oneYear ? "d MMM" : "d MMM uuuu") + " – " + write(last, "d MMM uuuu");
  }

  /** The sentences that say what the picture shows to whoever cannot see it. */
  String description(List<String> levels) {
    String kind = chart.kind().label() + " chart of ";
    String unit = unit().isBlank() ? "" : " in " + unit();
    StringBuilder text = new StringBuilder(kind + Typeface.clean(chart.quantity()) + unit);
    text.append(chart.line() == null ? "" : ", " + Typeface.clean(chart.line()));
    text.append(", ").append(Typeface.clean(chart.stream())).append(": ").append(results());
    text.append(chart.points().isEmpty() ? "" : ", " + period()).append("; ").append(limits());
    detectors(false).forEach(piece -> text.append("; ").append(piece));
    text.append('.');
    if (!levels.isEmpty()) {
      text.append(" Lines: ").append(String.join("; ", levels)).append('.');
    }
    text.append(' ').append(signals());
    chart.changes().forEach(change -> text.append(' ').append(told(change)).append('.'));
    if (!chart.events().isEmpty()) {
      text.append(" Events: ").append(events()).append('.');
    }
    int withdrawn = chart.withdrawn().size();
    text.append(withdrawn == 0 ? "" : " Withdrawn: " + results(withdrawn) + ".");
    return text.toString();
  }

  /** A change in a sentence without its stop. */
  private static String told(ControlChart.Change change) {
    String label = Typeface.clean(change.label());
    String first = change.earliest() == null ? "" : day(change.earliest());
    String last = change.latest() == null ? "" : day(change.latest());
    String within = first.equals(last) ? "" : ", between %s and %s".formatted(first, last);
    String finding = change.finding() == null ? "" : ": " + Typeface.clean(change.finding());
    return label.substring(0, 1).toUpperCase(Locale.ENGLISH)
        + label.substring(1)
        + within
        + finding;
  }

  private String events() {
    return chart.events().stream()
        .map(event -> day(event.at()) + " " + Notes.words(event))
        .collect(Collectors.joining("; "));
  }

  private String signals() {
    long n = chart.points().stream().filter(point -> !point.signals().isEmpty()).count();
    if (n == 0) {
      return "No result carries a signal.";
    }
    String each =
        new Explanations(chart)
            .signalled().stream()
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

  static String day(Instant at) {
    return write(at, "d MMM");
  }

  private static String write(Instant at, String pattern) {
    LocalDateTime time = LocalDateTime.ofInstant(at, ZoneOffset.UTC);
    return time.format(DateTimeFormatter.ofPattern(pattern, Locale.ENGLISH));
  }
}
