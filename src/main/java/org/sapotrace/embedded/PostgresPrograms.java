package org.sapotrace.embedded;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.sun.security.auth.module.UnixSystem;
import io.zonky.test.db.postgres.embedded.DefaultPostgresBinaryResolver;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.sapotrace.refusal.Refusal;
import org.tukaani.xz.XZInputStream;

/** PostgreSQL's own programs, as bundled for this system, and how they are run. */
final class PostgresPrograms {

  private final Path bin;

  private PostgresPrograms(Path bin) {
    this.bin = bin;
  }

  /**
   * The programs in a data directory, unpacked there unless the same ones already are.
   *
   * @throws Refusal when none are bundled for this system
   */
  static PostgresPrograms in(DataDirectory directory) throws IOException {
    byte[] archive = bundled();
    String digest = digest(archive);
    Path programs = directory.programs();
    Path stamp = Path.of("sha-256");
    if (!Files.exists(programs.resolve(stamp))
        || !Files.readString(programs.resolve(stamp)).equals(digest)) {
      DataDirectory.deleteAll(programs);
      Path unfinished = directory.unfinished();
      unpack(archive, unfinished);
      Files.writeString(unfinished.resolve(stamp), digest);
      directory.finish(unfinished, programs);
    }
    return new PostgresPrograms(programs.resolve("bin"));
  }

  private static byte[] bundled() throws IOException {
    String system = System.getProperty("os.name");
    try (InputStream archive =
        DefaultPostgresBinaryResolver.INSTANCE.getPgBinary(
            system.startsWith("Mac") ? "Darwin" : system, System.getProperty("os.arch"))) {
      return archive.readAllBytes();
    } catch (IllegalStateException missing) {
      throw Refusal.impossible(
          """
          This build of Sapotrace brings no PostgreSQL for %s on %s. Install PostgreSQL 15 or \
          newer and set QUARKUS_DATASOURCE_JDBC_URL, QUARKUS_DATASOURCE_USERNAME and \
          QUARKUS_DATASOURCE_PASSWORD."""
              .formatted(system, System.getProperty("os.arch")));
    }
  }

  private static String digest(byte[] archive) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(archive));
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }

  private static void unpack(byte[] archive, Path directory) throws IOException {
    try (TarArchiveInputStream tar =
        new TarArchiveInputStream(new XZInputStream(new ByteArrayInputStream(archive)))) {
      for (TarArchiveEntry entry; (entry = tar.getNextEntry()) != null; ) {
        Path target = directory.resolve(entry.getName());
        if (entry.isDirectory()) {
          Files.createDirectories(target);
        } else {
          Files.createDirectories(target.getParent());
          if (entry.isSymbolicLink()) {
            Files.createSymbolicLink(target, Path.of(entry.getLinkName()));
          } else {
            Files.copy(tar, target);
            target.toFile().setExecutable((entry.getMode() & 0100) != 0);
          }
        }
      }
    }
  }

  /**
   * Runs a program to its end.
   *
   * @throws Refusal with what the program said, when it ends with a failure
   */
  void run(String program, String... arguments) throws IOException {
    List<String> command = new ArrayList<>();
    if (isRoot()) {
      // PostgreSQL refuses to run as root. In a user namespace of its own the process is nobody to
      // itself, and still the owner of root's files.
      command.addAll(List.of("unshare", "--user"));
    }
    command.add(bin.resolve(program).toString());
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    builder.environment().keySet().removeIf(name -> name.startsWith("PG"));
    builder.environment().put("LC_ALL", "C");
    Process process = builder.start();
    String said = new String(process.getInputStream().readAllBytes(), UTF_8).strip();
    if (waitFor(process) != 0) {
      String asRoot = isRoot() ? " (run as root; rather run Sapotrace as an ordinary user)" : "";
      throw Refusal.impossible(
          "PostgreSQL's %s failed%s: %s".formatted(program, asRoot, reason(said)));
    }
  }

  /** The first line that tells of a fault, or all that was said where none does. */
  private static String reason(String said) {
    return said.lines()
        .filter(line -> line.contains("error:") || line.contains("FATAL:"))
        .findFirst()
        .orElse(said.replaceAll("\\s+", " "));
  }

  private static boolean isRoot() {
    return new UnixSystem().getUid() == 0;
  }

  private static int waitFor(Process process) throws IOException {
    try {
      return process.waitFor();
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while waiting for PostgreSQL", interrupted);
    }
  }
}
