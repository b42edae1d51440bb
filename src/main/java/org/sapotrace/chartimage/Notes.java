package org.sapotrace.chartimage;

import java.awt.Color;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;

/**
 * What happened, in words beside the lines and flags that show when.
 *
 * @param changes where they began, above the plot
 * @param events on the horizontal axis
 */
record Notes(List<Flags.Flag> changes, List<Flags.Flag> events) {

  /** Where the words of the first row stand above their edge, in sizes of the type. */
  private static final double FIRST = 0.85;

  private static final double ROW = 1.25;

  /** The height of rows, in sizes of the type. */
  static double height(int rows) {
    return rows == 0 ? 0 : 0.45 + rows * ROW;
  }

  /** The notes of a page, in the room that it has for them. */
  static Notes of(ControlChart chart, Page page) {
    return of(chart, page, page.strips().changes(), page.strips().events());
  }

  /** The notes as they would be placed on a page in so many rows. */
  static Notes of(ControlChart chart, Page page, int changeRows, int eventRows) {
    List<Flags.Wish> changes =
        chart.changes().stream()
            .map(change -> new Flags.Wish(page.across().x(change.at()), forms(chart, change)))
            .toList();
    List<Flags.Wish> events =
        chart.events().stream()
            .map(event -> new Flags.Wish(page.across().x(event.at()), forms(event)))
            .toList();
    return new Notes(place(changes, page, changeRows), place(events, page, eventRows));
  }

  private static List<Flags.Flag> place(List<Flags.Wish> wishes, Page page, int rows) {
    return page.across().isEmpty() || rows == 0
        ? List.of()
        : Flags.place(wishes, rows, page.reach(), page.font(), 0.75 * page.font());
  }

  /** What they need, and what must be said elsewhere. */
  Page.Strips strips(ControlChart chart) {
    List<String> wordless = new ArrayList<>();
    for (int i = 0; i < events.size(); i++) {
      if (events.get(i).text().isEmpty()) {
        ControlChart.Event event = chart.events().get(i);
        wordless.add("flag of %s: %s".formatted(Wording.day(event.at()), words(event)));
      }
    }
    return new Page.Strips(Flags.rows(changes), Flags.rows(events), wordless);
  }

  private static List<String> forms(ControlChart chart, ControlChart.Change change) {
    String beyond = isBefore(chart, change.at()) ? "← " : "";
    String label = beyond + Typeface.clean(change.label());
    return change.finding() == null
        ? List.of(label)
        : List.of(label + ": " + Typeface.clean(change.finding()), label);
  }

  private static List<String> forms(ControlChart.Event event) {
    String words = words(event);
    String note = clean(event.note());
    return note.isEmpty() ? List.of(words) : List.of(words, note);
  }

  /** What happened, such as {@code media change: tower repacked}. */
  static String words(ControlChart.Event event) {
    String kind = event.kind().equals("other") ? "" : event.kind().replace('-', ' ');
    String note = clean(event.note());
    return note.isEmpty()
        ? (kind.isEmpty() ? "event" : kind)
        : kind.isEmpty() ? note : kind + ": " + note;
  }

  private static String clean(@Nullable String text) {
    return text == null ? "" : Typeface.clean(text);
  }

  /** Whether something lies before all that is shown, so that no line can stand there. */
  static boolean isBefore(ControlChart chart, Instant at) {
    return !chart.points().isEmpty() && at.isBefore(chart.points().get(0).at());
  }

  /** Their words, in px of the picture. */
  List<Label> labels(Page page) {
    List<Label> labels = new ArrayList<>();
    double axis = page.plot().getMaxY() + page.foot();
    double left = page.plot().x;
    double font = page.font();
    changes.forEach(flag -> add(labels, flag, left, page.plot().y, font, Look.SIGNAL));
    events.forEach(flag -> add(labels, flag, left, axis, font, Look.INK));
    return labels;
  }

  /** Writes the words of a flag above the edge of a plot, in px of the picture. */
  static void add(
      List<Label> labels, Flags.Flag flag, double left, double edge, double font, Color colour) {
    if (!flag.text().isEmpty()) {
      double y = edge - (FIRST + flag.row() * ROW) * font;
      labels.add(new Label(flag.text(), left + flag.left(), y, font, colour));
    }
  }

  /** The height above its edge to which the pole of a flag reaches, px. */
  static double reach(Flags.Flag flag, double font) {
    return (FIRST + 0.75 + flag.row() * ROW) * font;
  }
}
