package org.sapotrace.pages;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Bench;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.forecast.AttributedShift;
import org.sapotrace.forecast.Outlook;
import org.sapotrace.monitoring.Chart;
import org.sapotrace.monitoring.Control;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Stream;

/**
 * How a stream stands now.
 *
 * @param chart of its latest results
 * @param latest its latest result; null where there is none
 * @param unexplained its signals without a finding, the one raised last first
 * @param moved what is behind the signal raised last of those that press and have no finding; null
 *     where there is none, and where titrant, blank, wash and feed are not told apart
 * @param outlook what it is heading for; null without a result
 */
record StreamStanding(
    Chart chart,
    Bench.@Nullable PlacedResult latest,
    List<Signal> unexplained,
    @Nullable AttributedShift moved,
    @Nullable Outlook outlook) {

  Stream stream() {
    return chart.stream();
  }

  /** The limits that judged the latest result; null where none did. */
  @Nullable LimitsRevision limits() {
    Control control = control();
    return control == null ? null : control.limits();
  }

  /** What the latest result says about its specification; null where it says nothing. */
  @Nullable Verdict verdict() {
    return latest == null || latest.result().latest().withdrawn()
        ? null
        : latest.result().latest().assessment().verdict();
  }

  /** The signals that go on at the latest result, whether their cause is known or not. */
  List<Signal> goingOn() {
    Control control = control();
    return control == null ? List.of() : control.signals();
  }

  /** The signals to look at first: those that go on, or else the latest that nobody explained. */
  List<Signal> pressing() {
    return goingOn().isEmpty() ? unexplained.stream().limit(1).toList() : goingOn();
  }

  /** The other signals without a finding, the one raised last first. */
  List<Signal> earlier() {
    List<Signal> pressing = pressing();
    return unexplained.stream()
        .filter(signal -> pressing.stream().noneMatch(each -> each.id().equals(signal.id())))
        .toList();
  }

  private @Nullable Control control() {
    return latest == null ? null : latest.control();
  }

  StreamStanding movedBy(@Nullable AttributedShift shift) {
    return new StreamStanding(chart, latest, unexplained, shift, outlook);
  }
}
