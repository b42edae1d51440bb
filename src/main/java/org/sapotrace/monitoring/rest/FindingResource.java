package org.sapotrace.monitoring.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.EntityTag;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Preconditions;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.Finding;
import org.sapotrace.monitoring.Findings;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** What somebody found out about a signal. */
@Path("/api/v1/signals/{id}/finding")
@Produces(MediaType.APPLICATION_JSON)
class FindingResource {

  private final Findings findings;
  private final Charts charts;
  private final ProductLines productLines;

  FindingResource(Findings findings, Charts charts, ProductLines productLines) {
    this.findings = findings;
    this.charts = charts;
    this.productLines = productLines;
  }

  @PUT
  @Requires(Scope.REVIEW)
  @Consumes(MediaType.APPLICATION_JSON)
  public Response put(UUID id, @NotNull @Valid FindingRequest body, @Context Request request) {
    Signal explained =
        findings.put(
            id, body.toNewFinding(), current -> Preconditions.require(request, tag(current)));
    Stream stream = productLines.stream(explained.stream()).orElseThrow();
    return Response.ok(SignalView.of(explained, stream)).tag(tag(explained.finding())).build();
  }

  @GET
  @Requires(Scope.READ)
  public Response get(UUID id, @Context Request request) {
    Finding found = charts.signal(id).finding();
    if (found == null) {
      throw Refusal.unknown("Nobody has written down a finding of signal %s.".formatted(id));
    }
    return Preconditions.answer(
        request, Objects.requireNonNull(tag(found)), () -> FindingView.of(found));
  }

  private static @Nullable EntityTag tag(@Nullable Finding finding) {
    return finding == null ? null : Preconditions.tag(finding.number());
  }
}
