package org.sapotrace.monitoring;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.SignalRule;

/**
 * The changes behind the signals of a chart. Several rules notice one change, each at its own time
 * and with an estimate of its own; signals of one side whose estimates may mean the same change are
 * taken as one, and the estimate of the last of them counts, which has most results to go by.
 */
final class Changes {

  static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMM", Locale.ENGLISH).withZone(ZoneOffset.UTC);

  /** Signals that mean one change, in the order in which they began to hold. */
  private record Shared(List<Signal> signals) {

    boolean takes(Signal signal) {
      return signals.stream().anyMatch(other -> mayBeOne(other, signal));
    }

    Signal estimate() {
      return signals.get(signals.size() - 1);
    }

    /** Whether it says more than the mark of the result at which the signal was raised. */
    boolean isTold() {
      return signals.stream().anyMatch(signal -> signal.start().at().isBefore(signal.openedAt()));
    }

    boolean covers(Place place) {
      return signals.stream().anyMatch(signal -> signal.covers(place));
    }

    ControlChart.Change drawn() {
      Beginning start = estimate().start();
      return new ControlChart.Change(
          start.at(),
          start.earliest(),
          start.latest(),
          "change about " + DAY.format(start.at()),
          null);
    }
  }

  private final List<Shared> told = new ArrayList<>();

  /**
   * The changes behind what is marked on a chart.
   *
   * @param signals that held somewhere among the points
   */
  Changes(List<Signal> signals, List<ControlChart.Point> points) {
    Set<SignalRule> marked =
        points.stream().flatMap(point -> point.signals().stream()).collect(Collectors.toSet());
    List<Shared> shared = new ArrayList<>();
    signals.stream()
        .filter(signal -> marked.contains(signal.rule()))
        .sorted(Comparator.comparing(Signal::opening))
        .forEach(
            signal ->
                shared.stream()
                    .filter(change -> change.takes(signal))
                    .findFirst()
                    .orElseGet(() -> add(shared))
                    .signals()
                    .add(signal));
    shared.stream().filter(Shared::isTold).forEach(told::add);
  }

  private static Shared add(List<Shared> shared) {
    Shared next = new Shared(new ArrayList<>());
    shared.add(next);
    return next;
  }

  private static boolean mayBeOne(Signal one, Signal other) {
    Beginning a = one.start();
    Beginning b = other.start();
    return one.side() == other.side()
        && !Objects.requireNonNullElse(a.latest(), a.at())
            .isBefore(Objects.requireNonNullElse(b.earliest(), b.at()))
        && !Objects.requireNonNullElse(b.latest(), b.at())
            .isBefore(Objects.requireNonNullElse(a.earliest(), a.at()));
  }

  /** What is drawn of them, in order of time. */
  List<ControlChart.Change> drawn() {
    return told.stream()
        .map(Shared::drawn)
        .sorted(Comparator.comparing(ControlChart.Change::at))
        .toList();
  }

  /** When the latest change behind the signals of a point began; null where none is told. */
  @Nullable Instant behind(Place place) {
    return told.stream()
        .filter(change -> change.covers(place))
        .map(change -> change.estimate().start().at())
        .max(Comparator.naturalOrder())
        .orElse(null);
  }
}
