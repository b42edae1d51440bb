package org.sapotrace.testing;

import io.quarkus.test.common.QuarkusTestResourceLifecycleManager;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;

/**
 * A {@link TestIssuer} whose tokens the service takes, which a test gets in its field of that type.
 * It does not answer while the service starts.
 */
public final class IssuerResource implements QuarkusTestResourceLifecycleManager {

  private TestIssuer issuer;

  @Override
  public Map<String, String> start() {
    try {
      issuer = new TestIssuer();
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
    return Map.of(
        "sapotrace.oidc.issuer",
        issuer.address(),
        "sapotrace.oidc.audience",
        TestIssuer.AUDIENCE,
        "sapotrace.oidc.lines-claim",
        "/plant/lines");
  }

  @Override
  public void inject(TestInjector injector) {
    injector.injectIntoFields(issuer, new TestInjector.MatchesType(TestIssuer.class));
  }

  @Override
  public void stop() {
    try {
      if (issuer != null) {
        issuer.close();
      }
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }
}
