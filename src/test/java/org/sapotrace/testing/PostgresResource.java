package org.sapotrace.testing;

import io.quarkus.test.common.QuarkusTestResourceLifecycleManager;
import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;

/** A real PostgreSQL for the tests that run the service, thrown away afterwards. */
public final class PostgresResource implements QuarkusTestResourceLifecycleManager {

  private EmbeddedPostgres postgres;

  @Override
  public Map<String, String> start() {
    try {
      postgres = EmbeddedPostgres.builder().start();
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
    return Map.of(
        "quarkus.datasource.jdbc.url", postgres.getJdbcUrl("postgres", "postgres"),
        "quarkus.datasource.username", "postgres",
        "quarkus.datasource.password", "postgres");
  }

  @Override
  public void stop() {
    try {
      if (postgres != null) {
        postgres.close();
      }
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }
}
