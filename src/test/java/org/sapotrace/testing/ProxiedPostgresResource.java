package org.sapotrace.testing;

import io.quarkus.test.common.QuarkusTestResourceLifecycleManager;
import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;

/** A real PostgreSQL behind a {@link FaultProxy}, which a test gets in its field of that type. */
public final class ProxiedPostgresResource implements QuarkusTestResourceLifecycleManager {

  private EmbeddedPostgres postgres;
  private FaultProxy proxy;

  @Override
  public Map<String, String> start() {
    try {
      postgres = EmbeddedPostgres.builder().start();
      proxy = new FaultProxy(postgres.getPort());
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
    return Map.of(
        "quarkus.datasource.jdbc.url", "jdbc:postgresql://127.0.0.1:" + proxy.port() + "/postgres",
        "quarkus.datasource.username", "postgres",
        "quarkus.datasource.password", "postgres",
        "quarkus.datasource.jdbc.max-size", "2",
        "quarkus.datasource.jdbc.acquisition-timeout", "1S");
  }

  @Override
  public void inject(TestInjector injector) {
    injector.injectIntoFields(proxy, new TestInjector.MatchesType(FaultProxy.class));
  }

  @Override
  public void stop() {
    try {
      if (proxy != null) {
        proxy.close();
      }
      if (postgres != null) {
        postgres.close();
      }
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }
}
