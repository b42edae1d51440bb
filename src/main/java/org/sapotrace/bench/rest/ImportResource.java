package org.sapotrace.bench.rest;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jboss.resteasy.reactive.RestQuery;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Entry;
import org.sapotrace.http.Problem;
import org.sapotrace.http.RowReader;
import org.sapotrace.http.Slug;
import org.sapotrace.refusal.Refusal;

/** Takes many entries at once, one JSON object in each line. */
@Path("/api/v1/lines/{line}/streams/{stream}/imports")
@Produces(MediaType.APPLICATION_JSON)
class ImportResource {

  /** What became of the rows. */
  record ImportView(int accepted, List<RefusedRow> refused) {}

  /**
   * A row that was not recorded.
   *
   * @param row its number in the body, counting from 1 and counting empty lines
   */
  record RefusedRow(int row, Problem problem) {}

  private record Row(int number, Entry entry) {}

  private final Bench bench;
  private final RowReader reader;

  ImportResource(Bench bench, RowReader reader) {
    this.bench = bench;
    this.reader = reader;
  }

  @POST
  @Consumes("application/x-ndjson")
  public ImportView take(
      @Slug String line,
      @Slug String stream,
      @RestQuery @DefaultValue("false") Boolean atomic,
      String body) {
    bench.requireStream(line, stream);
    List<RefusedRow> refused = new ArrayList<>();
    List<Row> rows = read(body, refused);
    return atomic ? allOrNone(line, stream, rows, refused) : oneByOne(line, stream, rows, refused);
  }

  private List<Row> read(String body, List<RefusedRow> refused) {
    List<Row> rows = new ArrayList<>();
    int number = 0;
    for (String row : body.split("\\r?\\n", -1)) {
      number++;
      if (!row.isBlank()) {
        try {
          rows.add(new Row(number, reader.<NewEntry>read(row, ImportResource::shape).toEntry()));
        } catch (RuntimeException failure) {
          refused.add(new RefusedRow(number, reader.problem(failure)));
        }
      }
    }
    return rows;
  }

  private static Class<? extends NewEntry> shape(JsonNode row) {
    boolean titration = row.has("replicates");
    if (titration == row.has("values")) {
      throw Refusal.impossible(
          "A row is either a titration with replicates or a result with values.");
    }
    return titration ? NewTitration.class : NewResult.class;
  }

  /** Each row by itself, so that one that is refused keeps no other from being recorded. */
  private ImportView oneByOne(
      String line, String stream, List<Row> rows, List<RefusedRow> refused) {
    int accepted = 0;
    for (Row row : rows) {
      try {
        bench.record(line, stream, row.entry());
        accepted++;
      } catch (RuntimeException failure) {
        refused.add(new RefusedRow(row.number(), reader.problem(failure)));
      }
    }
    refused.sort(Comparator.comparingInt(RefusedRow::row));
    return new ImportView(accepted, refused);
  }

  /** All rows in one transaction, and none where one of them would be refused. */
  private ImportView allOrNone(
      String line, String stream, List<Row> rows, List<RefusedRow> refused) {
    for (Row row : rows) {
      try {
        bench.assess(line, stream, row.entry());
      } catch (RuntimeException failure) {
        refused.add(new RefusedRow(row.number(), reader.problem(failure)));
      }
    }
    refused.sort(Comparator.comparingInt(RefusedRow::row));
    if (refused.isEmpty()) {
      bench.recordAll(line, stream, rows.stream().map(Row::entry).toList());
    }
    return new ImportView(refused.isEmpty() ? rows.size() : 0, refused);
  }
}
