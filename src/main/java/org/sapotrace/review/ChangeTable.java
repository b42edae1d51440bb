package org.sapotrace.review;

import static org.sapotrace.chartimage.Block.Table.Column.words;

import java.util.ArrayList;
import java.util.List;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.RecordedResult.Revision;
import org.sapotrace.chartimage.Block;

/** What was made otherwise of results of a period after they were recorded. */
record ChangeTable(StreamReview review) {

  List<Block> blocks() {
    Block heading = new Block.Heading(2, "Corrections and withdrawals");
    List<List<String>> rows = new ArrayList<>();
    review.results().forEach(result -> changes(result, rows));
    if (rows.isEmpty()) {
      return List.of(heading, new Block.Paragraph("No result of the period was changed."));
    }
    String code = review.stream().unit();
    String unit = code.equals("1") ? "" : ", " + code;
    return List.of(
        heading,
        new Block.Table(
            List.of(
                words("Batch, sampled", 28),
                words("Was" + unit, 14),
                words("Is" + unit, 14),
                words("Changed", 18),
                words("By", 18),
                words("Reason", 38)),
            rows));
  }

  private void changes(RecordedResult result, List<List<String>> rows) {
    for (int i = 1; i < result.revisions().size(); i++) {
      Revision revision = result.revisions().get(i);
      rows.add(
          List.of(
              "%s, %s".formatted(result.batch(), Words.time(result.sampledAt())),
              state(result.revisions().get(i - 1)),
              state(revision),
              Words.time(revision.recordedAt()),
              review.changer(result, revision.revision()),
              revision.reason() == null ? "none was given" : revision.reason()));
    }
  }

  private String state(Revision revision) {
    return revision.withdrawn() ? "withdrawn" : Words.number(StreamReview.value(revision));
  }
}
