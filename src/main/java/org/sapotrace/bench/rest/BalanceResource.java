package org.sapotrace.bench.rest;

import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import org.sapotrace.chemistry.BenchBalance;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;

/** The balances that a titration may name. */
@Path("/api/v1/balances")
@Produces(MediaType.APPLICATION_JSON)
class BalanceResource {

  /** A balance in the interface's words. */
  record BalanceView(String balance, double readabilityG, double standardUncertaintyG) {

    static BalanceView of(BenchBalance each) {
      return new BalanceView(
          each.slug(), each.readabilityG(), each.balance().standardUncertaintyG());
    }
  }

  @GET
  @Requires(Scope.READ)
  public Response list(@BeanParam PageRequest page, @Context UriInfo uri) {
    return Page.ofFixed(List.of(BenchBalance.values()), page, "balances", BenchBalance::slug)
        .map(BalanceView::of)
        .answer(uri);
  }
}
