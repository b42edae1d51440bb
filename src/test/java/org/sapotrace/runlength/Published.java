package org.sapotrace.runlength;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.sapotrace.controlchart.RunRule;

/** The independently computed run lengths among the test resources, whose README says more. */
final class Published {

  /** A row of a table, by the names of its columns. */
  record Row(Map<String, String> cells) {

    String text(String column) {
      return cells.get(column);
    }

    double number(String column) {
      return Double.parseDouble(cells.get(column));
    }

    Set<RunRule> rules() {
      return Arrays.stream(text("rules").split("\\+"))
          .map(RunRule::named)
          .collect(Collectors.toCollection(() -> EnumSet.noneOf(RunRule.class)));
    }

    @Override
    public String toString() {
      return cells.values().stream().filter(cell -> !cell.isEmpty()).toList().toString();
    }
  }

  private Published() {}

  static List<Row> rows(String file) {
    List<String[]> lines = lines(file).map(line -> line.split(",", -1)).toList();
    return lines.stream().skip(1).map(line -> row(lines.get(0), line)).toList();
  }

  private static Row row(String[] names, String[] cells) {
    Map<String, String> row = new LinkedHashMap<>();
    for (int i = 0; i < names.length; i++) {
      row.put(names[i], cells[i]);
    }
    return new Row(row);
  }

  private static Stream<String> lines(String file) {
    try (InputStream in = Published.class.getResourceAsStream("/control-charts/" + file)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines();
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
