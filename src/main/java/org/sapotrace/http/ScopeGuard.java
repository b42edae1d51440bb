package org.sapotrace.http;

import io.vertx.ext.web.RoutingContext;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.container.ResourceInfo;
import org.jboss.resteasy.reactive.server.ServerRequestFilter;

/** Keeps a caller from what its key is not for, before anything that was sent is read. */
public final class ScopeGuard {

  @ServerRequestFilter(priority = Priorities.AUTHORIZATION)
  public void filter(ResourceInfo resource, RoutingContext exchange) {
    Requires required = resource.getResourceMethod().getAnnotation(Requires.class);
    // A method that says nothing is nobody's but the one's who may do everything.
    Scope scope = required == null ? Scope.ADMINISTER : required.value();
    if (!CurrentCaller.of(exchange).may(scope)) {
      throw Problem.of(
              ProblemType.FORBIDDEN,
              "This needs the scope \"%s\", which this key or account has not."
                  .formatted(scope.id()))
          .asException();
    }
  }
}
