package org.sapotrace.notice.rest;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.HttpMethod;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.sse.Sse;
import jakarta.ws.rs.sse.SseEventSink;
import java.util.regex.Pattern;
import org.jboss.resteasy.reactive.RestHeader;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.notice.Feed;
import org.sapotrace.productline.ProductLines;

/** The notices as they come. */
@Path("/api/v1/notices")
class NoticeResource {

  private static final Pattern NUMBER = Pattern.compile("[0-9]{1,18}");

  private final ProductLines productLines;
  private final Feed feed;
  private final LiveReaders readers;

  NoticeResource(ProductLines productLines, Feed feed, LiveReaders readers) {
    this.productLines = productLines;
    this.feed = feed;
    this.readers = readers;
  }

  /** Without a number to go on from, only what comes from now on is told. */
  @GET
  @Requires(Scope.READ)
  @Produces(MediaType.SERVER_SENT_EVENTS)
  public void follow(
      @RestHeader("Last-Event-ID") @Nullable String lastEventId,
      @Context Request request,
      @Context SseEventSink sink,
      @Context Sse sse) {
    // The feed tells of all lines.
    productLines.requireEveryLine();
    long last = feed.last();
    long known = lastEventId == null ? last : Math.min(last, number(lastEventId));
    readers.admit(sink, sse, known);
    if (request.getMethod().equals(HttpMethod.HEAD)) {
      sink.close();
    }
  }

  private static long number(String lastEventId) {
    if (!NUMBER.matcher(lastEventId).matches()) {
      throw Problem.of(
              ProblemType.BAD_PARAMETER,
              "Last-Event-ID is not the id of an event of this feed: begin again without it.")
          .asException();
    }
    return Long.parseLong(lastEventId);
  }
}
