package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.SignalRule;

/** A part of a paper: words, a table or a picture. */
public sealed interface Block {

  /** All that it says, piece by piece; figures of charts with all their digits. */
  Stream<String> told();

  /**
   * The title of what follows.
   *
   * @param level 1 for a chapter, 2 for a part of it
   */
  record Heading(int level, String text) implements Block {
    @Override
    public Stream<String> told() {
      return Stream.of(text);
    }
  }

  /** What follows begins on a new page. */
  record NewPage() implements Block {
    @Override
    public Stream<String> told() {
      return Stream.empty();
    }
  }

  /** Sentences. */
  record Paragraph(String text) implements Block {
    @Override
    public Stream<String> told() {
      return Stream.of(text);
    }
  }

  /** One of several things that are listed. */
  record Item(String text) implements Block {
    @Override
    public Stream<String> told() {
      return Stream.of(text);
    }
  }

  /**
   * Rows of cells under titles, which stand again on each page that the table goes on.
   *
   * @param rows each with a cell for each column
   */
  record Table(List<Column> columns, List<List<String>> rows) implements Block {

    /**
     * A column.
     *
     * @param share of the width, beside those of the others
     * @param isNumber whether its cells end at its right edge
     */
    public record Column(String title, double share, boolean isNumber) {

      public static Column words(String title, double share) {
        return new Column(title, share, false);
      }

      public static Column number(String title, double share) {
        return new Column(title, share, true);
      }
    }

    public Table {
      columns = List.copyOf(columns);
      rows = rows.stream().map(List::copyOf).toList();
      int width = columns.size();
      if (rows.stream().anyMatch(row -> row.size() != width)) {
        throw new IllegalArgumentException("Each row of a table has a cell for each column.");
      }
    }

    @Override
    public Stream<String> told() {
      return Stream.concat(
          columns.stream().map(Column::title), rows.stream().flatMap(List::stream));
    }
  }

  /** A control chart, with time along its axis. */
  record Picture(ControlChart chart) implements Block {
    @Override
    public Stream<String> told() {
      List<String> all = new ArrayList<>(List.of(chart.kind().id(), chart.headline()));
      for (ControlChart.Point each : chart.points()) {
        all.add(
            "%s %s %s %s %s %s %s %s %s"
                .formatted(
                    each.result(),
                    each.at(),
                    each.value(),
                    each.plotted(),
                    each.standardUncertainty(),
                    each.centre(),
                    each.upper(),
                    each.lower(),
                    each.signals().stream().map(SignalRule::id).sorted().toList()));
      }
      return all.stream();
    }
  }
}
