package org.sapotrace.http;

import io.vertx.ext.web.RoutingContext;
import java.util.Optional;
import java.util.concurrent.CompletionStage;

/** Tells people by the tokens that another service issues to them. */
public interface Accounts {

  /** Whether such tokens are taken. */
  boolean areTaken();

  /**
   * The person whom a token is about.
   *
   * @param token as it was sent; it has the form of a token, and may be anything
   * @param exchange with which it was sent
   * @return empty where the token is not good; fails with what the caller is to be told where it is
   *     good for nothing here, or that cannot be told. Completes on any thread.
   */
  CompletionStage<Optional<Caller>> presenting(String token, RoutingContext exchange);
}
