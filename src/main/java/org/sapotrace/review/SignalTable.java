package org.sapotrace.review;

import static org.sapotrace.chartimage.Block.Table.Column.words;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chartimage.Block;
import org.sapotrace.monitoring.Finding;
import org.sapotrace.monitoring.Signal;

/** The signals of a period with what was found out about them. */
record SignalTable(StreamReview review) {

  List<Block> blocks() {
    Block heading = new Block.Heading(2, "Signals");
    if (review.signals().isEmpty()) {
      return List.of(heading, new Block.Paragraph("No signal held in the period."));
    }
    return List.of(
        heading,
        new Block.Table(
            List.of(
                words("Raised at sample", 18),
                words("Signal", 44),
                words("Change began", 18),
                words("State", 17),
                words("Cause, action and by", 35)),
            review.signals().stream().map(SignalTable::row).toList()));
  }

  private static List<String> row(Signal signal) {
    return List.of(
        Words.time(signal.openedAt()),
        "%s Seen last %s, at %s running."
            .formatted(
                signal.text(),
                Words.time(signal.lastSampledAt()),
                Words.count(signal.points(), "result")),
        (signal.start().earliest() == null ? "" : "about ") + Words.time(signal.start().at()),
        state(signal),
        finding(signal.finding()));
  }

  private static String state(Signal signal) {
    Signal.Lapse lapse = signal.lapse();
    return lapse == null ? signal.state().id() : "lapsed: " + lapse.reason();
  }

  private static String finding(@Nullable Finding finding) {
    if (finding == null) {
      return "No finding.";
    }
    return "Cause: %s Action: %s By %s, %s."
        .formatted(
            Words.sentence(finding.cause()),
            Words.sentence(finding.action() == null ? "none" : finding.action()),
            finding.by(),
            Words.day(finding.at()));
  }
}
