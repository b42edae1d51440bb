package org.sapotrace.http;

import io.vertx.core.Future;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Singleton;
import java.util.Optional;
import java.util.concurrent.CompletionStage;
import java.util.regex.Pattern;

/**
 * Lets in who is known. Where nobody signs in that is everybody, and {@link LoopbackGuard} keeps
 * out pages from elsewhere. Where keys are needed, a request without a good one, or a good token of
 * an account, is answered 401 before anything else about it is looked at.
 */
@Singleton
final class Door {

  /** What tells whether the service lives says nothing else, and is asked by who holds no key. */
  private static final Pattern OPEN = Pattern.compile("/q/health(/[a-z]+)?");

  private static final String NOTHING =
      "Send a key of this service as Authorization: Bearer …; a browser sends it as the password,"
          + " under any name.";
  private static final String BAD_KEY =
      "This key is not good, or no longer. Who administers this service makes another.";
  private static final String BAD_TOKEN =
      "This token is not good, or no longer: sign in again for one that is meant for this service.";

  private final Access access;
  private final Callers callers;
  private final Accounts accounts;
  private final RateLimit rates;
  private final ProblemAnswers answers;

  Door(Access access, Callers callers, Accounts accounts, RateLimit rates, ProblemAnswers answers) {
    this.access = access;
    this.callers = callers;
    this.accounts = accounts;
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
      lookUp(exchange, onward);
    }
  }

  private void lookUp(RoutingContext exchange, Runnable onward) {
    HttpServerRequest request = exchange.request();
    String token = accounts.areTaken() ? Credentials.token(request).orElse(null) : null;
    String key = Credentials.key(request).orElse(null);
    if (token != null) {
      await(accounts.presenting(token, exchange), BAD_TOKEN, exchange, onward);
    } else if (key != null) {
      // The record is asked on a thread that may wait.
      await(
          exchange
              .vertx()
              .<Optional<? extends Caller>>executeBlocking(() -> callers.holding(key), false)
              .toCompletionStage(),
          BAD_KEY,
          exchange,
          onward);
    } else {
      refuse(exchange, false, NOTHING);
    }
  }

  /** Goes on in the exchange's own context; the body is not read meanwhile. */
  private void await(
      CompletionStage<? extends Optional<? extends Caller>> looking,
      String otherwise,
      RoutingContext exchange,
      Runnable onward) {
    exchange.request().pause();
    Future.fromCompletionStage(looking, exchange.vertx().getOrCreateContext())
        .onComplete(
            found -> {
              exchange.request().resume();
              if (found.failed()) {
                answers.send(
                    Diagnosis.of(found.cause())
                        .orElseGet(() -> Diagnosis.defect(found.cause(), exchange)),
                    exchange);
              } else if (found.result().isEmpty()) {
                refuse(exchange, true, otherwise);
              } else {
                admit(found.result().get(), exchange, onward);
              }
            });
  }

  private void admit(Caller caller, RoutingContext exchange, Runnable onward) {
    RateLimit.Standing standing = rates.count(caller.id());
    standing.headers().forEach(exchange.response()::putHeader);
    if (standing.isExceeded()) {
      answers.send(
          Problem.of(
              ProblemType.TOO_MANY_REQUESTS,
              "All %d requests of this minute are made: go on in %d s."
                  .formatted(standing.perMinute(), standing.secondsLeft())),
          exchange);
    } else {
      CurrentCaller.enter(exchange, caller);
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
