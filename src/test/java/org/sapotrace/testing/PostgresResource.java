package org.sapotrace.testing;

import io.quarkus.test.common.QuarkusTestResourceLifecycleManager;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.sapotrace.embedded.EmbeddedDatabase;

/**
 * The embedded PostgreSQL, set as in production, for the tests that run the service; its data is
 * thrown away afterwards.
 */
public final class PostgresResource implements QuarkusTestResourceLifecycleManager {

  private Path directory;
  private EmbeddedDatabase database;

  @Override
  public Map<String, String> start() {
    try {
      directory = Files.createTempDirectory("sapotrace-test-");
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
    database = EmbeddedDatabase.start(directory);
    return Map.of(
        "quarkus.datasource.jdbc.url", database.jdbcUrl(),
        "quarkus.datasource.username", database.username(),
        "quarkus.datasource.password", database.password());
  }

  @Override
  public void stop() {
    if (database != null) {
      database.close();
      DeletedDirectory.delete(directory);
    }
  }
}
