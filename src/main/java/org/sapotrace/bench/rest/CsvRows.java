package org.sapotrace.bench.rest;

import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.RuntimeJsonMappingException;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvParser;
import java.io.IOException;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.rest.CsvColumns.Column;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.RowReader;
import org.sapotrace.refusal.Refusal;

/**
 * Entries in the rows of a CSV body (RFC 4180): cells are put together to the JSON they stand for.
 */
final class CsvRows implements EntryRows {

  private static final ObjectReader CELLS =
      new CsvMapper().enable(CsvParser.Feature.WRAP_AS_ARRAY).readerFor(String[].class);
  private static final Pattern NUMBER =
      Pattern.compile("[-+]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d+)?");
  private static final Pattern WITH_COMMA = Pattern.compile("[-+]?\\d+,\\d+");

  private final RowReader reader;
  private final CsvColumns columns;

  private CsvRows(RowReader reader, CsvColumns columns) {
    this.reader = reader;
    this.columns = columns;
  }

  /** Rows below a first one that names the columns. */
  static CsvRows below(String header, RowReader reader) {
    return new CsvRows(reader, CsvColumns.of(cells(header)));
  }

  @Override
  public @Nullable NewEntry read(String row) {
    List<String> cells = cells(row);
    if (cells.stream().allMatch(String::isEmpty)) {
      return null;
    }
    if (cells.size() != columns.count()) {
      throw malformed(
          "The row has %d cells, and the first row names %d columns."
              .formatted(cells.size(), columns.count()));
    }
    ObjectNode entry = JsonNodeFactory.instance.objectNode();
    for (Column column : columns.inOrder()) {
      String cell = cells.get(column.cell());
      if (!cell.isEmpty()) {
        put(entry, column, cell);
      }
    }
    return reader.<NewEntry>read(entry, EntryRows::shape);
  }

  private static List<String> cells(String row) {
    try (MappingIterator<String[]> rows = CELLS.readValues(row)) {
      List<String> cells = rows.hasNext() ? List.of(rows.next()) : List.of("");
      if (!rows.hasNext()) {
        return cells;
      }
      throw malformed("The row has a carriage return inside: rows end with a line feed.");
    } catch (IOException | RuntimeJsonMappingException notSo) {
      throw malformed(
          "The row is not CSV: a cell in quotation marks ends with one, and those inside are doubled.");
    }
  }

  private static void put(ObjectNode entry, Column column, String cell) {
    List<String> path = column.path();
    String field = path.get(0);
    if (path.size() == 1) {
      put(entry, field, column, cell, "#/" + field);
    } else if (field.equals("values")) {
      ArrayNode values = entry.withArray(field);
      int index = index(column, values.size());
      values.add(number(column, cell, "#/values/" + index));
    } else if (field.equals("replicates")) {
      ArrayNode replicates = entry.withArray(field);
      boolean begun = Integer.parseInt(path.get(1)) == replicates.size();
      int index = begun ? replicates.size() - 1 : index(column, replicates.size());
      ObjectNode replicate = begun ? (ObjectNode) replicates.get(index) : replicates.addObject();
      String pointer = "#/replicates/%d/%s".formatted(index, path.get(2));
      put(replicate, path.get(2), column, cell, pointer);
    } else {
      String pointer = "#/%s/%s".formatted(field, path.get(1));
      put(entry.withObjectProperty(field), path.get(1), column, cell, pointer);
    }
  }

  private static void put(
      ObjectNode parent, String field, Column column, String cell, String pointer) {
    if (column.isText()) {
      parent.put(field, cell);
    } else {
      parent.put(field, number(column, cell, pointer));
    }
  }

  private static int index(Column column, int filled) {
    int index = Integer.parseInt(column.path().get(1)) - 1;
    if (index != filled) {
      throw Refusal.impossible(
          "%s is given, and number %d of them is not: fill them from 1 on."
              .formatted(column.name(), filled + 1));
    }
    return index;
  }

  private static double number(Column column, String cell, String pointer) {
    String text = cell.strip();
    if (NUMBER.matcher(text).matches() && Double.isFinite(Double.parseDouble(text))) {
      return Double.parseDouble(text);
    }
    throw Refusal.impossible(
        pointer,
        WITH_COMMA.matcher(text).matches()
            ? "%s is %s: write numbers with a decimal point, %s."
                .formatted(column.name(), text, text.replace(',', '.'))
            : "%s is %s, which is no number.".formatted(column.name(), text));
  }

  private static RuntimeException malformed(String why) {
    return Problem.of(ProblemType.MALFORMED, why).asException();
  }
}
