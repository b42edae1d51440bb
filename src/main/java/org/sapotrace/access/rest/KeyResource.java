package org.sapotrace.access.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Pattern;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.net.URI;
import java.util.List;
import org.sapotrace.access.ApiKey;
import org.sapotrace.access.KeyRing;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.RecordsOnce;
import org.sapotrace.http.Requires;
import org.sapotrace.http.SafeText;
import org.sapotrace.http.Scope;

/** The keys by which callers are known. */
@Path("/api/v1/keys")
@Produces(MediaType.APPLICATION_JSON)
class KeyResource {

  private static final String LIST = "keys";
  private static final String ID = "[0-9a-f]{16}";
  private static final String NO_ID = "must be the 16 digits that stand in a key behind sapo_";

  /** Why a key is revoked. */
  record NewRevocation(@NotNull @SafeText(max = 1000) String reason) {}

  private final KeyRing keys;

  KeyResource(KeyRing keys) {
    this.keys = keys;
  }

  @POST
  @RecordsOnce
  @Requires(Scope.ADMINISTER)
  @Consumes(MediaType.APPLICATION_JSON)
  public Response make(@NotNull @Valid NewKeyRequest body) {
    KeyRing.Made made = keys.make(body.toNewKey());
    return Response.created(URI.create("/api/v1/keys/" + made.key().id()))
        .entity(MadeKey.of(made))
        .build();
  }

  @GET
  @Requires(Scope.ADMINISTER)
  public Response list(@BeanParam PageRequest page, @Context UriInfo uri) {
    Cursor after = page.after(LIST);
    List<ApiKey> found = keys.after(after == null ? null : after.id(), page.size() + 1);
    return Page.of(found, page.size(), LIST, KeyResource::place).answer(uri);
  }

  @GET
  @Path("/{id}")
  @Requires(Scope.ADMINISTER)
  public ApiKey get(@Pattern(regexp = ID, message = NO_ID) String id) {
    return keys.key(id);
  }

  @POST
  @RecordsOnce
  @Path("/{id}/revocation")
  @Requires(Scope.ADMINISTER)
  @Consumes(MediaType.APPLICATION_JSON)
  public Response revoke(
      @Pattern(regexp = ID, message = NO_ID) String id, @NotNull @Valid NewRevocation body) {
    return Response.ok(keys.revoke(id, body.reason())).build();
  }

  private static Cursor place(ApiKey key) {
    return new Cursor(key.createdAt().toString(), key.id());
  }
}
