package org.sapotrace.embedded;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * A PostgreSQL server that may still run on a cluster because the service that started it was
 * killed.
 */
final class LeftOverPostmaster {

  private LeftOverPostmaster() {}

  /**
   * Makes a cluster, held by this process, free of any earlier server.
   *
   * <p>A {@code postmaster.pid} alone proves nothing: after a crash of the machine its number may
   * be that of any process, which then must not be stopped, and for whose sake PostgreSQL would
   * refuse to start.
   */
  static void stop(Path cluster, PostgresPrograms programs) throws IOException {
    Path pidFile = cluster.resolve("postmaster.pid");
    Optional<ProcessHandle> process = named(pidFile);
    if (process.isEmpty()) {
      // PostgreSQL itself tells when the file of a process that is gone may be overwritten.
      return;
    }
    if (runsOn(process.get(), cluster)) {
      programs.run("pg_ctl", "stop", "-m", "fast", "-w", "-t", "60", "-D", cluster.toString());
    } else {
      Files.delete(pidFile);
    }
  }

  /** Whether a server runs on a cluster. */
  static boolean runs(Path cluster) throws IOException {
    return named(cluster.resolve("postmaster.pid"))
        .filter(process -> runsOn(process, cluster))
        .isPresent();
  }

  private static Optional<ProcessHandle> named(Path pidFile) throws IOException {
    if (!Files.exists(pidFile)) {
      return Optional.empty();
    }
    List<String> lines = Files.readAllLines(pidFile);
    if (lines.isEmpty() || !lines.get(0).matches("[1-9][0-9]{0,17}")) {
      return Optional.empty();
    }
    return ProcessHandle.of(Long.parseLong(lines.get(0))).filter(ProcessHandle::isAlive);
  }

  /** Whether a process is a server of the cluster, which a server makes its working directory. */
  private static boolean runsOn(ProcessHandle process, Path cluster) {
    Path entry = Path.of("/proc", String.valueOf(process.pid()));
    if (!Files.exists(entry)) {
      String[] arguments = process.info().arguments().orElse(new String[0]);
      return List.of(arguments).contains(cluster.toString());
    }
    try {
      return Files.isSameFile(entry.resolve("cwd"), cluster);
    } catch (IOException anotherUsersOrGone) {
      return false;
    }
  }
}
