package org.sapotrace.access.oidc;

import io.quarkus.logging.Log;
import io.quarkus.oidc.AccessTokenCredential;
import io.quarkus.oidc.TenantIdentityProvider;
import io.quarkus.security.AuthenticationFailedException;
import io.smallrye.mutiny.Uni;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.atomic.AtomicBoolean;
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
  private final TenantIdentityProvider library;
  private final AtomicBoolean away = new AtomicBoolean();

  People(AccountSettings settings, TenantIdentityProvider library) {
    this.issuer = settings.issuer();
    this.library = library;
  }

  @Override
  public boolean areTaken() {
    return issuer != null;
  }

  @Override
  public CompletionStage<Optional<Caller>> presenting(String token) {
    AccountSettings.Issuer trusted = issuer;
    Claims claims = Claims.of(token).orElse(null);
    if (trusted == null || claims == null) {
      return CompletableFuture.completedStage(Optional.empty());
    }
    return isGood(token, trusted)
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

  private Uni<Boolean> isGood(String token, AccountSettings.Issuer trusted) {
    return Uni.createFrom()
        .deferred(() -> library.authenticate(new AccessTokenCredential(token)))
        .ifNoItem()
        .after(Trust.PATIENCE)
        .fail()
        .replaceWith(true)
        .onFailure(People::isOfTheToken)
        .recoverWithItem(false)
        .onItem()
        .invoke(told -> noteReached(trusted))
        .onFailure()
        .transform(failure -> unanswered(failure, trusted));
  }

  /** Whether a failure says that the token is bad, and not that this could not be told. */
  private static boolean isOfTheToken(Throwable failure) {
    return failure instanceof AuthenticationFailedException
        && (failure.getCause() == null || failure.getCause() instanceof InvalidJwtException);
  }

  /**
   * Said once until the issuer answers again. A failure may hold the token, so it is not logged.
   */
  private RuntimeException unanswered(Throwable failure, AccountSettings.Issuer trusted) {
    if (!away.getAndSet(true)) {
      Log.warnf(
          "The issuer of accounts, %s, does not answer as it should (%s): its tokens are refused with 503 where its keys are needed. Keys of this service work as ever.",
          trusted.address(), failure.getClass().getSimpleName());
    }
    return Problem.of(
            ProblemType.UNAVAILABLE,
            "The issuer of this token cannot be asked for its keys just now: try again shortly, or use a key of this service.")
        .asException();
  }

  private void noteReached(AccountSettings.Issuer trusted) {
    if (away.getAndSet(false)) {
      Log.infof("Tokens of %s are checked again.", trusted.address());
    }
  }
}
