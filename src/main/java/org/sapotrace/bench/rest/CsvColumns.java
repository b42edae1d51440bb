package org.sapotrace.bench.rest;

import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;

/**
 * The columns of a CSV body, which its first row names as the fields of the JSON: {@code
 * titrant.lot}, {@code replicates.1.titrantMl}, counting from 1.
 *
 * @param inOrder such that those of a list come one after the other
 * @param count how many cells a row has
 */
record CsvColumns(List<Column> inOrder, int count) {

  /**
   * A column.
   *
   * @param cell where it stands in a row, counting from 0
   * @param path the names and numbers that lead to the field
   * @param isText whether its cells are text; otherwise they are numbers
   */
  record Column(String name, int cell, List<String> path, boolean isText) {

    private int number() {
      return path.size() > 1 && Character.isDigit(path.get(1).charAt(0))
          ? Integer.parseInt(path.get(1))
          : 0;
    }
  }

  private static final Pattern TEXTS =
      Pattern.compile("batch|sampledAt|analyst|source|glassware|balance|titrant\\.lot");
  private static final Pattern NUMBERS =
      Pattern.compile(
          "expandedUncertainty|coverageFactor|blankMl|inletMgPerKg"
              + "|titrant\\.(normality|standardUncertainty)"
              + "|throughput\\.(litres|bedVolumes)"
              + "|values\\.N|replicates\\.N\\.(titrantMl|initialMl|finalMl|freeAlkaliMl"
                  .replace("N", "([1-9]\\d?|100)")
              + "|sampleG|sampleMl|sampleC)");
  private static final List<String> NEEDED = List.of("batch", "sampledAt");

  /**
   * The columns that a first row names.
   *
   * @throws RuntimeException that becomes a 400 where one of them is not known, or it is no CSV
   */
  static CsvColumns of(List<String> header) {
    List<String> names = header.stream().map(String::strip).toList();
    refuseOtherSeparators(names);
    for (String name : names) {
      if (!TEXTS.matcher(name).matches() && !NUMBERS.matcher(name).matches()) {
        throw unusable(
            "There is no column %s. Columns are named as the fields of JSON, such as batch, sampledAt, values.1, source, titrant.lot or replicates.1.titrantMl."
                .formatted(name.isEmpty() ? "without a name" : name));
      }
    }
    if (Set.copyOf(names).size() < names.size()) {
      throw unusable("A column is named twice: give each field once.");
    }
    for (String needed : NEEDED) {
      if (!names.contains(needed)) {
        throw unusable("The first row names the columns, and there is no %s.".formatted(needed));
      }
    }
    return new CsvColumns(
        IntStream.range(0, names.size())
            .mapToObj(cell -> column(names.get(cell), cell))
            .sorted(Comparator.comparing(Column::number))
            .toList(),
        names.size());
  }

  private static Column column(String name, int cell) {
    return new Column(name, cell, List.of(name.split("\\.")), TEXTS.matcher(name).matches());
  }

  private static void refuseOtherSeparators(List<String> names) {
    String first = names.get(0);
    if (names.size() == 1 && (first.contains(";") || first.contains("\t"))) {
      throw unusable(
          "The columns are separated by semicolons or tabs: separate them by commas, and write numbers with a decimal point.");
    }
  }

  private static RuntimeException unusable(String why) {
    return Problem.of(ProblemType.MALFORMED, why).asException();
  }
}
