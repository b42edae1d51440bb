package org.sapotrace.http;

import jakarta.ws.rs.HttpMethod;
import jakarta.ws.rs.container.ContainerRequestContext;
import org.jboss.resteasy.reactive.server.ServerRequestFilter;

/**
 * Refuses {@code Idempotency-Key}, which promises that a repeat is not carried out twice: as long
 * as repeats are not recognised, to ignore it would let a retry record a result a second time.
 */
public final class RepeatGuard {

  private static final String KEY = "Idempotency-Key";

  @ServerRequestFilter
  public void filter(ContainerRequestContext request) {
    if (request.getMethod().equals(HttpMethod.POST) && request.getHeaders().containsKey(KEY)) {
      throw Problem.of(
              ProblemType.NOT_YET,
              "Repeats are not recognised yet, so nothing was done: leave Idempotency-Key out, and"
                  + " before a retry look whether the first try was recorded.")
          .asException();
    }
  }
}
