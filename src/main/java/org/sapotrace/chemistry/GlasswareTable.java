package org.sapotrace.chemistry;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/** Reads the data file of glassware, once. */
final class GlasswareTable {

  static final List<Glassware> ROWS = read("glassware.csv");

  private GlasswareTable() {}

  private static List<Glassware> read(String name) {
    try (InputStream file =
            Objects.requireNonNull(GlasswareTable.class.getResourceAsStream(name), name);
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(file, StandardCharsets.UTF_8))) {
      return lines
          .lines()
          .filter(line -> !line.isBlank() && !line.startsWith("#"))
          .map(GlasswareTable::row)
          .toList();
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private static Glassware row(String line) {
    List<String> cells = Arrays.stream(line.split(",", -1)).map(String::strip).toList();
    return new Glassware(
        cells.get(0),
        kind(cells.get(1)),
        Double.parseDouble(cells.get(2)),
        Double.parseDouble(cells.get(3)),
        cells.get(4),
        Double.parseDouble(cells.get(5)),
        Double.parseDouble(cells.get(6)),
        cells.get(7),
        cells.get(8));
  }

  private static Glassware.Kind kind(String label) {
    return Arrays.stream(Glassware.Kind.values())
        .filter(each -> each.label().equals(label))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no such kind of glassware: " + label));
  }
}
