package org.sapotrace.embedded;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.sapotrace.refusal.Refusal;

/** What a data directory may not be, told before anything in it is changed. */
final class DirectoryRules {

  private DirectoryRules() {}

  /**
   * Checks where a directory is.
   *
   * @throws Refusal within the directory that zonky's embedded PostgreSQL, run by any other program
   *     of this machine, empties of what it takes for its own remains; or where the path has a
   *     character with which PostgreSQL, which hands it to a shell in double quotes, does not cope;
   *     or where files have no owner, as on Windows
   */
  static void checkPlace(Path path) {
    if (!path.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      throw Refusal.impossible(
          """
          The data directory %s is where files have no owner and no permissions. Set \
          SAPOTRACE_DATA_DIRECTORY to a directory elsewhere; on Windows, install PostgreSQL 15 or \
          newer and set QUARKUS_DATASOURCE_JDBC_URL."""
              .formatted(path));
    }
    Path cleaned = Path.of(System.getProperty("java.io.tmpdir"), "embedded-pg").toAbsolutePath();
    if (path.startsWith(cleaned.normalize())) {
      throw Refusal.impossible(
          """
          The data directory %s lies within %s, which other programs empty. Set \
          SAPOTRACE_DATA_DIRECTORY to a directory elsewhere."""
              .formatted(path, cleaned));
    }
    if (path.toString().matches("(?s).*[\"$`\\\\\n].*")) {
      throw Refusal.impossible(
          """
          The data directory %s has a quote, dollar, backquote, backslash or line break in its \
          name. Set SAPOTRACE_DATA_DIRECTORY to a directory without."""
              .formatted(path));
    }
  }

  /**
   * Checks what is in a directory already.
   *
   * @throws Refusal when it is a database cluster, or holds one of another version of PostgreSQL
   *     and none of this one
   */
  static void checkContent(Path path, Path cluster) throws IOException {
    refuseOther(path, "");
    if (Files.exists(cluster)) {
      refuseOther(cluster, String.valueOf(DataDirectory.MAJOR_VERSION));
      return;
    }
    try (DirectoryStream<Path> others =
        Files.newDirectoryStream(path, DataDirectory.CLUSTER + "[0-9]*")) {
      for (Path other : others) {
        refuseOther(other, "");
      }
    }
  }

  private static void refuseOther(Path cluster, String version) throws IOException {
    Path versionFile = cluster.resolve("PG_VERSION");
    if (!Files.exists(versionFile) || Files.readString(versionFile).strip().equals(version)) {
      return;
    }
    throw Refusal.impossible(
        """
        %s holds the data of a PostgreSQL %s, which this Sapotrace, with PostgreSQL %d and a \
        directory of its own, does not open. Nothing was changed. Set SAPOTRACE_DATA_DIRECTORY \
        to another directory, or run that PostgreSQL yourself and set \
        QUARKUS_DATASOURCE_JDBC_URL."""
            .formatted(
                cluster, Files.readString(versionFile).strip(), DataDirectory.MAJOR_VERSION));
  }
}
