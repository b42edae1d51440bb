package org.sapotrace.embedded;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.sapotrace.refusal.Refusal;

/**
 * The directory in which an embedded database lives, held by this process alone until it is closed.
 *
 * <p>The hold is a lock of the operating system, so it ends with the process however that ends, and
 * tells a running service from a PostgreSQL that its service left behind.
 */
final class DataDirectory implements AutoCloseable {

  /** The PostgreSQL that the bundled programs are, and the only one whose data they can read. */
  static final int MAJOR_VERSION = 18;

  static final String CLUSTER = "postgresql-";
  static final String PASSWORD = "database-password";
  private static final String UNFINISHED = "unfinished-";
  private static final FileAttribute<?> OWNER_ONLY_DIRECTORY =
      PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------"));
  private static final FileAttribute<?> OWNER_ONLY_FILE =
      PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"));

  private final Path path;
  private final FileChannel lockFile;

  private DataDirectory(Path path, FileChannel lockFile) {
    this.path = path;
    this.lockFile = lockFile;
  }

  /**
   * Holds a directory, which is created where it does not exist, readable by its owner alone.
   *
   * @throws Refusal when it cannot be written, is held by another process, holds the data of
   *     another version of PostgreSQL, or lies where other programs delete
   */
  static DataDirectory hold(Path wanted) {
    Path path = wanted.toAbsolutePath().normalize();
    DirectoryRules.checkPlace(path);
    try {
      if (!Files.isDirectory(path)) {
        Files.createDirectories(path, OWNER_ONLY_DIRECTORY);
      }
      Path real = path.toRealPath();
      DataDirectory held = new DataDirectory(real, lock(real));
      try {
        DirectoryRules.checkContent(held.path, held.cluster());
        held.deleteUnfinished();
      } catch (IOException | RuntimeException refused) {
        held.close();
        throw refused;
      }
      return held;
    } catch (IOException failed) {
      throw unusable(path, failed);
    }
  }

  private static FileChannel lock(Path directory) throws IOException {
    FileChannel file =
        FileChannel.open(
            directory.resolve("sapotrace.lock"),
            Set.of(StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE),
            OWNER_ONLY_FILE);
    FileLock lock = file.tryLock();
    if (lock == null) {
      ByteBuffer holder = ByteBuffer.allocate(32);
      file.read(holder, 0);
      file.close();
      throw Refusal.conflict(
          """
          Another Sapotrace is running on this data directory (process %s): %s. Stop it first, or \
          set SAPOTRACE_DATA_DIRECTORY to another directory."""
              .formatted(
                  new String(holder.array(), 0, holder.position(), UTF_8).strip(), directory));
    }
    file.truncate(0);
    file.write(UTF_8.encode(ProcessHandle.current().pid() + "\n"), 0);
    return file;
  }

  /** Where the database cluster is; absent before the first start. */
  Path cluster() {
    return path.resolve(CLUSTER + MAJOR_VERSION);
  }

  /** Where PostgreSQL's programs are unpacked; may be deleted while nothing runs. */
  Path programs() {
    return path.resolve("programs");
  }

  /** What PostgreSQL writes about itself since its last start. */
  Path log() {
    return path.resolve("postgresql.log");
  }

  /** Holds the one password of the database's roles, readable by the owner alone. */
  Path passwordFile() {
    return path.resolve(PASSWORD);
  }

  /** A new directory to make something in, deleted at the next start unless it is finished. */
  Path unfinished() throws IOException {
    return Files.createTempDirectory(path, UNFINISHED, OWNER_ONLY_DIRECTORY);
  }

  /** A new file, readable by the owner alone, deleted at the next start unless it is finished. */
  Path unfinishedFile() throws IOException {
    return Files.createTempFile(path, UNFINISHED, "", OWNER_ONLY_FILE);
  }

  /** Puts what was made into its place in one step, and makes the step survive a power failure. */
  void finish(Path unfinished, Path place) throws IOException {
    Files.move(unfinished, place);
    try (FileChannel directory = FileChannel.open(path)) {
      directory.force(true);
    }
  }

  private void deleteUnfinished() throws IOException {
    try (DirectoryStream<Path> leftOver = Files.newDirectoryStream(path, UNFINISHED + "*")) {
      for (Path made : leftOver) {
        try {
          deleteAll(made);
        } catch (IOException ignored) {
          // A program that outlives its killed service for a moment still writes there.
        }
      }
    }
  }

  static void deleteAll(Path directory) throws IOException {
    if (Files.exists(directory)) {
      List<Path> deepestFirst;
      try (Stream<Path> all = Files.walk(directory)) {
        deepestFirst = all.sorted(Comparator.reverseOrder()).toList();
      }
      for (Path path : deepestFirst) {
        Files.deleteIfExists(path);
      }
    }
  }

  private static Refusal unusable(Path path, IOException failed) {
    String reason =
        failed instanceof AccessDeniedException denied
            ? "no permission on " + denied.getFile()
            : failed instanceof FileAlreadyExistsException file
                ? file.getFile() + " is a file"
                : failed.getMessage();
    return Refusal.impossible(
        """
        The data directory %s cannot be used (%s). Let the user who runs Sapotrace own and write \
        it, or set SAPOTRACE_DATA_DIRECTORY to another directory."""
            .formatted(path, reason));
  }

  @Override
  public void close() {
    try {
      lockFile.close();
    } catch (IOException ignored) {
      // The lock ends with the process anyway.
    }
  }

  @Override
  public String toString() {
    return path.toString();
  }
}
