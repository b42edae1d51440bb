package org.sapotrace.bench.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Bench;
import org.sapotrace.refusal.Refusal;

/** Calculations that record nothing. */
@Path("/api/v1/calculations")
@Produces(MediaType.APPLICATION_JSON)
class CalculationResource {

  private final Bench bench;

  CalculationResource(Bench bench) {
    this.bench = bench;
  }

  @POST
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("/soap")
  public CalculationView soap(
      @NotNull @Valid SoapCalculation body, @RestQuery @Nullable String propagation) {
    if (propagation != null) {
      throw Refusal.notYet("#", "Distributions are not propagated yet; leave propagation out.");
    }
    return CalculationView.of(bench.calculateSoap(body.readings(), body.basis()));
  }

  @POST
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("/metal-equivalent")
  public MetalEquivalentCalculation.Answer metalEquivalent(
      @NotNull @Valid MetalEquivalentCalculation body) {
    return body.answer();
  }
}
