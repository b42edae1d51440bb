package org.sapotrace.pages;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import org.sapotrace.http.CurrentCaller;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;

/** The review of a line: what to do now, and how each of its streams stands. */
@Path("/lines/{line}")
class LinePages {

  /** A line with more streams is read through the interface; its page would take too long. */
  private static final int MOST_STREAMS = 60;

  private final ProductLines productLines;
  private final Standings standings;
  private final CurrentCaller caller;

  LinePages(ProductLines productLines, Standings standings, CurrentCaller caller) {
    this.productLines = productLines;
    this.standings = standings;
    this.caller = caller;
  }

  @GET
  @Requires(Scope.READ)
  @Produces(MediaType.TEXT_HTML)
  public String review(@Slug String line) {
    Line asked = productLines.line(line);
    List<Stream> streams = productLines.streamsAfter(line, "", MOST_STREAMS + 1);
    List<StreamStanding> standing =
        standings.of(line, BatchOrder.of(streams.stream().limit(MOST_STREAMS).toList()));
    return Templates.line(
            LinePage.of(asked, standing, WallClock.ofService()),
            streams.size() > MOST_STREAMS,
            caller.get().map(who -> who.may(Scope.REVIEW)).orElse(false))
        .render();
  }
}
