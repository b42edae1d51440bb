package org.sapotrace.http;

import io.quarkus.arc.Arc;
import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Singleton;
import java.util.Optional;

/** Who makes the request that is being carried out. */
@Singleton
public class CurrentCaller {

  private static final String KEY = CurrentCaller.class.getName();

  private final CurrentVertxRequest requests;

  CurrentCaller(CurrentVertxRequest requests) {
    this.requests = requests;
  }

  static void enter(RoutingContext exchange, Caller caller) {
    exchange.put(KEY, caller);
  }

  /** The caller, who is nobody until the door has let somebody in. */
  static Caller of(RoutingContext exchange) {
    return exchange.get(KEY, Caller.NOBODY);
  }

  /** The caller; empty where the service does something of its own accord. */
  public Optional<Caller> get() {
    RoutingContext exchange =
        Arc.container().requestContext().isActive() ? requests.getCurrent() : null;
    return Optional.ofNullable(exchange).map(CurrentCaller::of);
  }
}
