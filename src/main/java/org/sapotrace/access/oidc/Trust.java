package org.sapotrace.access.oidc;

import io.quarkus.oidc.OidcRequestContext;
import io.quarkus.oidc.OidcTenantConfig;
import io.quarkus.oidc.TenantConfigResolver;
import io.quarkus.oidc.runtime.OidcTenantConfig.ApplicationType;
import io.smallrye.mutiny.Uni;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.sapotrace.access.AccountSettings;

/**
 * Tells the library whose tokens are good, where there is an issuer. It asks that issuer for its
 * keys when the first token comes, so that the service starts whether the issuer answers or not;
 * nothing else is asked, and no token is ever sent to it.
 */
@ApplicationScoped
class Trust implements TenantConfigResolver {

  /** How long the issuer may take to answer. */
  static final Duration PATIENCE = Duration.ofSeconds(5);

  /**
   * A token by a key that is not known makes the issuer's keys be asked for anew, at most this
   * often: whoever sends forged ones cannot have the issuer asked for each.
   */
  static final Duration KEYS_ASKED_EVERY = Duration.ofSeconds(5);

  /** RFC 7519, section 4.1.4: a small leeway for clocks that differ. */
  static final Duration LEEWAY = Duration.ofSeconds(30);

  private final @Nullable OidcTenantConfig tenant;

  Trust(AccountSettings settings) {
    this.tenant = settings.issuer() == null ? null : tenant(settings.issuer());
  }

  @Override
  public Uni<OidcTenantConfig> resolve(
      RoutingContext exchange, OidcRequestContext<OidcTenantConfig> otherThread) {
    return tenant == null ? Uni.createFrom().nullItem() : Uni.createFrom().item(tenant);
  }

  private static OidcTenantConfig tenant(AccountSettings.Issuer issuer) {
    return OidcTenantConfig.authServerUrl(issuer.address())
        .tenantId("people")
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
