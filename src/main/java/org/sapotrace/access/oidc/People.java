package org.sapotrace.access.oidc;

import io.quarkus.logging.Log;
import io.quarkus.oidc.AccessTokenCredential;
import io.quarkus.security.AuthenticationFailedException;
import io.quarkus.security.identity.IdentityProviderManager;
import io.quarkus.security.identity.request.TokenAuthenticationRequest;
import io.quarkus.vertx.http.runtime.security.HttpSecurityUtils;
import io.smallrye.mutiny.Uni;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.atomic.AtomicLong;
import org.jose4j.jwt.consumer.InvalidJwtException;
import org.jspecify.annotations.Nullable;
import org.sapotrace.access.AccountSettings;
import org.sapotrace.access.Person;
import org.sapotrace.http.Accounts;
import org.sapotrace.http.Caller;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;

/** Whom tokens are about, where the library finds them good. */
@ApplicationScoped
class People implements Accounts {

  private final AccountSettings.@Nullable Issuer issuer;
  private final IdentityProviderManager library;
  private final InstantSource clock;

  /** The minute in which the log said last that the issuer does not answer. */
  private final AtomicLong said = new AtomicLong();

  People(AccountSettings settings, IdentityProviderManager library, InstantSource clock) {
    this.issuer = settings.issuer();
    this.library = library;
    this.clock = clock;
  }

  @Override
  public boolean areTaken() {
    return issuer != null;
  }

  @Override
  public CompletionStage<Optional<Caller>> presenting(String token, RoutingContext exchange) {
    AccountSettings.Issuer trusted = issuer;
    Claims claims = Claims.of(token).orElse(null);
    if (trusted == null || claims == null) {
      return CompletableFuture.completedStage(Optional.empty());
    }
    return isGood(token, trusted, exchange)
        .map(good -> good ? Optional.<Caller>of(person(trusted, claims)) : Optional.<Caller>empty())
        .subscribeAsCompletionStage();
  }

  private static Person person(AccountSettings.Issuer trusted, Claims claims) {
    String linesClaim = trusted.linesClaim();
    return Person.of(
        trusted,
        claims.text("sub"),
        claims.texts(trusted.scopesClaim()),
        linesClaim == null ? List.of() : claims.texts(linesClaim));
  }

  /** Good is only what the library says is somebody. */
  private Uni<Boolean> isGood(
      String token, AccountSettings.Issuer trusted, RoutingContext exchange) {
    return library
        .authenticate(
            HttpSecurityUtils.setRoutingContextAttribute(
                new TokenAuthenticationRequest(new AccessTokenCredential(token)), exchange))
        .ifNoItem()
        .after(Trust.PATIENCE)
        .fail()
        .map(identity -> identity != null && !identity.isAnonymous())
        .onFailure(People::isOfTheToken)
        .recoverWithItem(false)
        .onFailure()
        .transform(failure -> unanswered(trusted));
  }

  /** Whether a failure says that the token is bad, and not that this could not be told. */
  private static boolean isOfTheToken(Throwable failure) {
    return failure instanceof AuthenticationFailedException
        && (failure.getCause() == null || failure.getCause() instanceof InvalidJwtException);
  }

  /** The failure itself may hold the token, so the log is told only that there was one. */
  private RuntimeException unanswered(AccountSettings.Issuer trusted) {
    long minute = clock.instant().truncatedTo(ChronoUnit.MINUTES).getEpochSecond();
    if (said.getAndSet(minute) != minute) {
      Log.warn(
          "The issuer of accounts, %s, does not answer as it should: tokens for which its keys are needed are refused with 503. Keys of this service work as ever."
              .formatted(trusted.address()));
    }
    return Problem.of(
            ProblemType.UNAVAILABLE,
            "The issuer of this token cannot be asked for its keys just now: try again shortly, or use a key of this service.")
        .asException();
  }
}
