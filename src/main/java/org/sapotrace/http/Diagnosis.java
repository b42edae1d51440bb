package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonProcessingException;
import io.quarkus.logging.Log;
import io.vertx.ext.web.RoutingContext;
import java.io.CharConversionException;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Collections;
import java.util.Deque;
import java.util.IdentityHashMap;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.RejectedExecutionException;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;

/** Finds the problem in whatever was thrown. */
final class Diagnosis {

  private Diagnosis() {}

  /**
   * The problem that lies in a failure or in what caused it; empty where it says nothing to the one
   * who asked.
   *
   * <p>The causes are searched, and what was suppressed on the way, as a failed commit comes
   * wrapped by the transaction, the persistence and the injection in turn.
   */
  static Optional<Problem> of(Throwable failure) {
    Set<Throwable> seen = Collections.newSetFromMap(new IdentityHashMap<>());
    Deque<Throwable> open = new ArrayDeque<>();
    open.add(failure);
    while (!open.isEmpty()) {
      Throwable next = open.remove();
      Problem problem = known(next);
      if (problem != null) {
        return Optional.of(problem);
      }
      if (seen.add(next)) {
        if (next.getCause() != null) {
          open.add(next.getCause());
        }
        Collections.addAll(open, next.getSuppressed());
      }
    }
    return Optional.empty();
  }

  /** The problem of a failure that is this service's own: logged, and told as a reference only. */
  static Problem defect(Throwable failure, RoutingContext exchange) {
    String path = Plain.text(String.valueOf(exchange.request().path()), 500);
    return defect(failure, exchange.request().method() + " " + path);
  }

  /** The same of what came by another way. */
  static Problem defect(Throwable failure, String asked) {
    UUID reference = UUID.randomUUID();
    Log.errorf(failure, "%s failed, reference %s", asked, reference);
    return Problem.of(
        ProblemType.DEFECT,
        "This is a defect of the service, not of the request. Its log tells more under the reference "
            + reference
            + ".");
  }

  private static @Nullable Problem known(Throwable failure) {
    if (failure instanceof ProblemException carrier) {
      return carrier.problem();
    }
    if (failure instanceof Refusal refusal) {
      return Problem.of(refusal);
    }
    if (failure instanceof RejectedExecutionException) {
      return Problem.of(
          ProblemType.UNAVAILABLE, "Too much is being asked at once: try again shortly.");
    }
    return DatabaseFaults.problem(failure);
  }

  /** The problem of a failure met while a body was read; null where it is not the sender's. */
  static @Nullable Problem ofReading(Throwable failure) {
    if (failure instanceof JsonProcessingException json) {
      return JsonFaults.problem(json);
    }
    if (failure instanceof CharConversionException) {
      return Problem.of(ProblemType.MALFORMED, "The body is not text in UTF-8.");
    }
    return failure instanceof IOException
        ? Problem.of(ProblemType.MALFORMED, "The body ended before it was whole.")
        : null;
  }
}
