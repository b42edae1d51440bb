package org.sapotrace.pages;

import org.jspecify.annotations.Nullable;
import org.sapotrace.monitoring.Finding;
import org.sapotrace.monitoring.Signal;

/**
 * A signal as it is told to people who know already of which stream it is.
 *
 * @param path of the result at which it was raised
 * @param where that result, in words
 * @param text which rule, and by what figures
 * @param began since when the process is taken to have changed, and at how many results it held
 * @param data its address in the interface
 * @param finding what somebody found out about it; null while nobody did
 */
public record ToldSignal(
    String path, String where, String text, String began, String data, @Nullable String finding) {

  private static final String BATCH = ", batch ";

  static ToldSignal of(Signal signal, WallClock clock) {
    String rule = ": " + signal.rule().description();
    String text = signal.text();
    int end = text.indexOf(rule);
    String head = end < 0 ? "" : text.substring(0, end);
    int batch = head.lastIndexOf(BATCH);
    return new ToldSignal(
        "/results/" + signal.result(),
        batch < 0 ? "The result" : "Batch " + head.substring(batch + BATCH.length()),
        end < 0 ? text : Words.capital(text.substring(end + 2)),
        began(signal, clock),
        "/api/v1/signals/" + signal.id(),
        signal.finding() == null ? null : found(signal.finding(), clock));
  }

  private static String began(Signal signal, WallClock clock) {
    return "Sampled %s; the change began %s; held at %s."
        .formatted(
            clock.day(signal.openedAt()),
            signal.start().at().equals(signal.openedAt())
                ? "with this sample"
                : (signal.start().earliest() == null ? "" : "about ")
                    + clock.day(signal.start().at()),
            signal.points() == 1 ? "one result" : signal.points() + " results running");
  }

  private static String found(Finding finding, WallClock clock) {
    return "%s %sFound by %s, %s."
        .formatted(
            Words.sentence(finding.cause()),
            finding.action() == null ? "" : Words.sentence(finding.action()) + " ",
            finding.by(),
            clock.day(finding.at()));
  }
}
