package org.sapotrace.notice.rest;

import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.UUID;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.RecordsOnce;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.notice.Delivery;
import org.sapotrace.notice.Despatch;

/** What is on its way to a subscriber, what arrived and what did not. */
@Path("/api/v1/subscriptions/{subscription}/deliveries")
@Produces(MediaType.APPLICATION_JSON)
class DeliveryResource {

  private final Despatch despatch;

  DeliveryResource(Despatch despatch) {
    this.despatch = despatch;
  }

  @GET
  @Requires(Scope.ADMINISTER)
  public Response list(
      @Slug String subscription,
      @RestQuery Delivery.@Nullable State state,
      @BeanParam PageRequest page,
      @Context UriInfo uri) {
    String list = "deliveries of %s in %s".formatted(subscription, state);
    Cursor cursor = page.after(list);
    UUID after = cursor == null ? null : UUID.fromString(cursor.id());
    List<Delivery> found = despatch.of(subscription, state, after, page.size() + 1);
    return Page.of(found, page.size(), list, DeliveryResource::place)
        .map(DeliveryView::of)
        .answer(uri);
  }

  @POST
  @Requires(Scope.ADMINISTER)
  @RecordsOnce
  @Path("/{id}/resend")
  public Response resend(@Slug String subscription, UUID id) {
    return Response.ok(DeliveryView.of(despatch.resend(subscription, id))).build();
  }

  private static Cursor place(Delivery delivery) {
    return new Cursor(delivery.recordedAt().toString(), delivery.notice().toString());
  }
}
