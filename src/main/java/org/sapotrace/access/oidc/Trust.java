package org.sapotrace.access.oidc;

import io.quarkus.oidc.Oidc;
import io.quarkus.oidc.OidcTenantConfig;
import io.quarkus.oidc.runtime.OidcTenantConfig.ApplicationType;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.time.Duration;
import org.sapotrace.access.AccountSettings;

/**
 * Tells the library whose tokens are good, where there is an issuer. It then asks that issuer for
 * its keys; nothing else is asked, and no token is ever sent to it.
 */
@ApplicationScoped
class Trust {

  /** How long the issuer may take to answer, and so what it can cost a start. */
  static final Duration PATIENCE = Duration.ofSeconds(5);

  /**
   * A token by a key that is not known makes the issuer's keys be asked for anew, at most this
   * often: whoever sends forged ones cannot have the issuer asked for each.
   */
  static final Duration KEYS_ASKED_EVERY = Duration.ofSeconds(10);

  /** RFC 7519, section 4.1.4: a small leeway for clocks that differ. */
  static final Duration LEEWAY = Duration.ofSeconds(30);

  void set(@Observes Oidc library, AccountSettings settings) {
    AccountSettings.Issuer issuer = settings.issuer();
    if (issuer != null) {
      library.create(tenant(issuer));
    }
  }

  private static OidcTenantConfig tenant(AccountSettings.Issuer issuer) {
    return OidcTenantConfig.authServerUrl(issuer.address())
        .applicationType(ApplicationType.SERVICE)
        .connectionTimeout(PATIENCE)
        .token()
        .issuer(issuer.address())
        .audience(issuer.audience())
        .subjectRequired()
        .lifespanGrace((int) LEEWAY.toSeconds())
        .forcedJwkRefreshInterval(KEYS_ASKED_EVERY)
        .allowJwtIntrospection(false)
        .allowOpaqueTokenIntrospection(false)
        .end()
        .build();
  }
}
