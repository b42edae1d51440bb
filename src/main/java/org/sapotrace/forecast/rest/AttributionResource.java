package org.sapotrace.forecast.rest;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.UUID;
import org.sapotrace.forecast.AttributedShift;
import org.sapotrace.forecast.WhatMoved;

/** What is behind a signal, by all that is known when it is asked. */
@Path("/api/v1/signals/{id}/attribution")
@Produces(MediaType.APPLICATION_JSON)
class AttributionResource {

  private final WhatMoved whatMoved;

  AttributionResource(WhatMoved whatMoved) {
    this.whatMoved = whatMoved;
  }

  @GET
  public AttributedShift get(UUID id) {
    return whatMoved.behind(id);
  }
}
