package org.sapotrace.notice.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.Preconditions;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.notice.Subscription;
import org.sapotrace.notice.Subscriptions;

/** Who is told what. */
@Path("/api/v1/subscriptions")
@Produces(MediaType.APPLICATION_JSON)
class SubscriptionResource {

  private static final String LIST = "subscriptions";

  private final Subscriptions subscriptions;

  SubscriptionResource(Subscriptions subscriptions) {
    this.subscriptions = subscriptions;
  }

  @PUT
  @Requires(Scope.ADMINISTER)
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("/{subscription}")
  public Response put(
      @Slug String subscription,
      @NotNull @Valid NewSubscription body,
      @Context Request request,
      @Context UriInfo uri) {
    Subscriptions.Put put =
        subscriptions.put(body.toWanted(subscription), current -> require(request, current));
    Response.ResponseBuilder answer =
        put.created() ? Response.created(uri.getAbsolutePath()) : Response.ok();
    return answer
        .entity(SubscriptionView.of(put.subscription(), put.madeSecret()))
        .tag(Preconditions.tag(put.subscription().version()))
        .build();
  }

  @GET
  @Requires(Scope.ADMINISTER)
  @Path("/{subscription}")
  public Response get(@Slug String subscription, @Context Request request) {
    Subscription found = subscriptions.subscription(subscription);
    return Preconditions.answer(
        request, Preconditions.tag(found.version()), () -> SubscriptionView.of(found));
  }

  @GET
  @Requires(Scope.ADMINISTER)
  public Response list(@BeanParam PageRequest page, @Context UriInfo uri) {
    Cursor after = page.after(LIST);
    List<Subscription> found =
        subscriptions.after(after == null ? "" : after.key(), page.size() + 1);
    return Page.of(found, page.size(), LIST, each -> new Cursor(each.slug(), each.slug()))
        .map(SubscriptionView::of)
        .answer(uri);
  }

  private static void require(Request request, @Nullable Subscription current) {
    Preconditions.require(request, current == null ? null : Preconditions.tag(current.version()));
  }
}
