package org.sapotrace.monitoring.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;

/** How long charts run before they signal; nothing is recorded, and no stream is read. */
@Path("/api/v1/calculations/chart-design")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class ChartDesignResource {

  @POST
  @Requires(Scope.READ)
  public ChartDesignView design(@NotNull @Valid ChartDesignCalculation body) {
    return body.answer();
  }
}
