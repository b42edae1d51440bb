package org.sapotrace.productline.rest;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.UUID;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.PlantEvent;

/** Single events, by their identifiers. */
@Path("/api/v1/events")
@Produces(MediaType.APPLICATION_JSON)
class EventResource {

  private final Logbook logbook;

  EventResource(Logbook logbook) {
    this.logbook = logbook;
  }

  @GET
  @Requires(Scope.READ)
  @Path("/{id}")
  public PlantEvent get(UUID id) {
    return logbook.event(id);
  }
}
