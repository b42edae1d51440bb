package org.sapotrace.titrant.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Calculations;
import org.sapotrace.bench.Propagation;
import org.sapotrace.bench.Strength;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;

/** What a standardisation comes to; nothing is recorded, and no lot is read. */
@Path("/api/v1/calculations/standardisation")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class StandardisationCalculationResource {

  private final Calculations calculations;

  StandardisationCalculationResource(Calculations calculations) {
    this.calculations = calculations;
  }

  @POST
  @Requires(Scope.READ)
  public Strength calculate(
      @NotNull @Valid StandardisationCalculation body,
      @RestQuery @Nullable Propagation propagation) {
    return calculations.calculate(body.readings(), propagation);
  }
}
