package org.sapotrace.titrant.rest;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.time.Instant;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.titrant.StrengthReport;
import org.sapotrace.titrant.StrengthReports;

/** The strength of a titrant lot. */
@Path("/api/v1/titrants/{lot}/strength")
@Produces(MediaType.APPLICATION_JSON)
class StrengthResource {

  private final StrengthReports reports;

  StrengthResource(StrengthReports reports) {
    this.reports = reports;
  }

  @GET
  @Requires(Scope.READ)
  public StrengthReport get(@Slug String lot, @RestQuery @Nullable Instant at) {
    return reports.of(lot, at);
  }
}
