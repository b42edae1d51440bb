package org.sapotrace.forecast.rest;

import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import org.jboss.resteasy.reactive.RestQuery;
import org.sapotrace.forecast.Outlook;
import org.sapotrace.forecast.Outlooks;
import org.sapotrace.forecast.WashPlan;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.washmodel.WashScheme;

/** What a stream is heading for. */
@Path("/api/v1/lines/{line}/streams/{stream}/forecast")
@Produces(MediaType.APPLICATION_JSON)
class ForecastResource {

  private final Outlooks outlooks;

  ForecastResource(Outlooks outlooks) {
    this.outlooks = outlooks;
  }

  @GET
  @Requires(Scope.READ)
  public Outlook get(
      @Slug String line,
      @Slug String stream,
      @RestQuery @DefaultValue("1") Integer stages,
      @RestQuery @DefaultValue("cross-flow") WashScheme scheme) {
    return outlooks.of(line, stream, plan(stages, scheme));
  }

  private static WashPlan plan(int stages, WashScheme scheme) {
    try {
      return new WashPlan(stages, scheme);
    } catch (IllegalArgumentException impossible) {
      throw Problem.of(ProblemType.BAD_PARAMETER, String.valueOf(impossible.getMessage()))
          .asException();
    }
  }
}
