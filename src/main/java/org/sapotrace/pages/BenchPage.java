package org.sapotrace.pages;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import org.sapotrace.http.CurrentCaller;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;

/** The first page: for which stream is it? */
@Path("/")
class BenchPage {

  private static final int MOST = 1000;

  private final ProductLines productLines;
  private final CurrentCaller caller;

  BenchPage(ProductLines productLines, CurrentCaller caller) {
    this.productLines = productLines;
    this.caller = caller;
  }

  @GET
  @Requires(Scope.READ)
  @Produces(MediaType.TEXT_HTML)
  public String choose(@Context UriInfo uri) {
    List<Line> lines = productLines.linesAfter("", MOST + 1);
    return Templates.choice(
            lines.stream().limit(MOST).map(this::listed).toList(),
            lines.size() > MOST,
            caller.get().map(who -> who.may(Scope.REVIEW)).orElse(false),
            uri.getBaseUri().toString().replaceFirst("/$", ""))
        .render();
  }

  private ListedLine listed(Line line) {
    return ListedLine.of(
        line,
        BatchOrder.of(
            productLines.streamsAfter(line.slug(), "", MOST).stream()
                .filter(stream -> !stream.isKeptRemoval())
                .toList()));
  }
}
