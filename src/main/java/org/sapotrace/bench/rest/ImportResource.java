package org.sapotrace.bench.rest;

import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import java.io.IOException;
import java.io.InputStream;
import org.jboss.resteasy.reactive.RestQuery;
import org.sapotrace.bench.Bench;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.RepeatableParts;
import org.sapotrace.http.Requires;
import org.sapotrace.http.RowReader;
import org.sapotrace.http.Scope;
import org.sapotrace.http.SentRows;
import org.sapotrace.http.Slug;

/** Takes many entries at once: one JSON object in each line, or CSV. */
@Path("/api/v1/lines/{line}/streams/{stream}/imports")
@Produces(MediaType.APPLICATION_JSON)
class ImportResource {

  private static final String ROWS_OF_JSON = "application/x-ndjson";
  private static final String CSV = "text/csv";

  private final Bench bench;
  private final RowReader reader;
  private final RepeatableParts parts;

  ImportResource(Bench bench, RowReader reader, RepeatableParts parts) {
    this.bench = bench;
    this.reader = reader;
    this.parts = parts;
  }

  @POST
  @Requires(Scope.RECORD)
  @Consumes({ROWS_OF_JSON, CSV})
  public ImportView take(
      @Slug String line,
      @Slug String stream,
      @RestQuery @DefaultValue("false") Boolean atomic,
      @Context HttpHeaders headers,
      InputStream body) {
    bench.requireStream(line, stream);
    // A body that does not say what it is is taken for JSON.
    MediaType type = headers.getMediaType();
    boolean csv = type != null && type.getSubtype().equalsIgnoreCase("csv");
    SentRows rows = new SentRows(body, csv ? SentRows.Form.QUOTED : SentRows.Form.LINES);
    Import taken =
        new Import(
            parts, reader, rows, csv ? 2 : 1, entries -> bench.recordAll(line, stream, entries));
    try {
      EntryRows form = csv ? CsvRows.below(header(rows), reader) : EntryRows.json(reader);
      return atomic ? taken.whole(form) : taken.blockByBlock(form);
    } catch (IOException | RuntimeException failure) {
      throw taken.interrupted(failure);
    }
  }

  private static String header(SentRows rows) throws IOException {
    SentRows.Row first = rows.next();
    if (first == null) {
      throw Problem.of(
              ProblemType.MALFORMED,
              "The body is empty: its first row names the columns, such as batch,sampledAt,values.1.")
          .asException();
    }
    return RowReader.text(first);
  }
}
