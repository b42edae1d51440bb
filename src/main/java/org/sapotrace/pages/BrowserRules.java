package org.sapotrace.pages;

import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.MultiMap;
import io.vertx.core.http.HttpHeaders;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Singleton;

/** What a browser may do with a page: show it with our style and our pictures, and nothing else. */
@Singleton
final class BrowserRules {

  private static final int PRIORITY = 20_000;
  private static final String CONTENT =
      "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self';"
          + " frame-ancestors 'none'; base-uri 'none'";

  void register(@Observes Filters filters) {
    filters.register(BrowserRules::apply, PRIORITY);
  }

  private static void apply(RoutingContext exchange) {
    exchange.addHeadersEndHandler(done -> addTo(exchange.response().headers()));
    exchange.next();
  }

  private static void addTo(MultiMap headers) {
    String type = headers.get(HttpHeaders.CONTENT_TYPE);
    if (type != null && type.startsWith("text/html")) {
      headers.set("Content-Security-Policy", CONTENT);
      // With no-referrer a browser would send its forms as from nowhere, and they are refused.
      headers.set("Referrer-Policy", "same-origin");
    }
  }
}
