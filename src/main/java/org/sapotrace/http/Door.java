package org.sapotrace.http;

import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Singleton;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Lets in who is known. Where nobody signs in that is everybody, and {@link LoopbackGuard} keeps
 * out pages from elsewhere. Where keys are needed, a request without a good one is answered 401
 * before anything else about it is looked at.
 */
@Singleton
final class Door {

  /** What tells whether the service lives says nothing else, and is asked by who holds no key. */
  private static final Pattern OPEN = Pattern.compile("/q/health(/[a-z]+)?");

  private final Access access;
  private final Callers callers;
  private final RateLimit rates;
  private final ProblemAnswers answers;

  Door(Access access, Callers callers, RateLimit rates, ProblemAnswers answers) {
    this.access = access;
    this.callers = callers;
    this.rates = rates;
    this.answers = answers;
  }

  /**
   * Lets an exchange in, or answers it.
   *
   * @param onward what follows for whoever is let in
   */
  void open(RoutingContext exchange, Runnable onward) {
    if (access == Access.BENCH) {
      CurrentCaller.enter(exchange, Caller.BENCH);
      onward.run();
    } else if (OPEN.matcher(exchange.request().path()).matches()) {
      onward.run();
    } else {
      Credentials.key(exchange.request())
          .ifPresentOrElse(
              key -> lookUp(key, exchange, onward),
              () ->
                  refuse(
                      exchange,
                      false,
                      "Send a key of this service as Authorization: Bearer …; a browser sends it as"
                          + " the password, under any name."));
    }
  }

  /** The record is asked on a thread that may wait; the body is not read meanwhile. */
  private void lookUp(String key, RoutingContext exchange, Runnable onward) {
    exchange.request().pause();
    exchange
        .vertx()
        .executeBlocking(() -> callers.holding(key), false)
        .onComplete(
            found -> {
              exchange.request().resume();
              if (found.succeeded()) {
                admit(found.result(), exchange, onward);
              } else {
                answers.send(
                    Diagnosis.of(found.cause())
                        .orElseGet(() -> Diagnosis.defect(found.cause(), exchange)),
                    exchange);
              }
            });
  }

  private void admit(Optional<? extends Caller> found, RoutingContext exchange, Runnable onward) {
    if (found.isEmpty()) {
      refuse(
          exchange,
          true,
          "This key is not good, or no longer. Who administers this service makes another.");
      return;
    }
    RateLimit.Standing standing = rates.count(found.get().id());
    standing.headers().forEach(exchange.response()::putHeader);
    if (standing.isExceeded()) {
      answers.send(
          Problem.of(
              ProblemType.TOO_MANY_REQUESTS,
              "This key has made its %d requests of this minute: go on in %d s."
                  .formatted(standing.perMinute(), standing.secondsLeft())),
          exchange);
    } else {
      CurrentCaller.enter(exchange, found.get());
      onward.run();
    }
  }

  private void refuse(RoutingContext exchange, boolean hadOne, String detail) {
    exchange
        .response()
        .putHeader("WWW-Authenticate", Credentials.challenges(exchange.request(), hadOne));
    answers.send(Problem.of(ProblemType.UNAUTHENTICATED, detail), exchange);
  }
}
