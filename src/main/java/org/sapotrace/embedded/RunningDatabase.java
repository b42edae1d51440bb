package org.sapotrace.embedded;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.sapotrace.refusal.Refusal;

/**
 * A database that a running service has on its data directory, for others of the same owner to look
 * into.
 *
 * @param jdbcUrl its address, without credentials
 */
public record RunningDatabase(String jdbcUrl, String username, String password) {

  /** In postmaster.pid: PostgreSQL documentation, storage layout. */
  private static final int LINE_OF_PORT = 3;

  /**
   * The database of the service that runs on a data directory.
   *
   * @return empty where none runs there
   * @throws Refusal where the directory cannot be read or used
   */
  public static Optional<RunningDatabase> on(Path dataDirectory) {
    try {
      DataDirectory.hold(dataDirectory).close();
      return Optional.empty();
    } catch (Refusal refused) {
      if (refused.kind() != Refusal.Kind.CONFLICT) {
        throw refused;
      }
    }
    Path directory = dataDirectory.toAbsolutePath().normalize();
    Path cluster = directory.resolve(DataDirectory.CLUSTER + DataDirectory.MAJOR_VERSION);
    try {
      List<String> lines = Files.readAllLines(cluster.resolve("postmaster.pid"));
      String password = Files.readString(directory.resolve(DataDirectory.PASSWORD)).strip();
      String port = lines.get(LINE_OF_PORT);
      return Optional.of(
          new RunningDatabase(
              EmbeddedDatabase.address(Integer.parseInt(port), EmbeddedDatabase.NAME),
              EmbeddedDatabase.NAME,
              password));
    } catch (IOException | IndexOutOfBoundsException | NumberFormatException starting) {
      throw Refusal.conflict(
          "The Sapotrace on %s is only starting or ending: try again in a moment."
              .formatted(directory));
    }
  }
}
