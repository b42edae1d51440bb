package org.sapotrace.testing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;

/** A directory of a test, when it is no longer needed. */
final class DeletedDirectory {

  private DeletedDirectory() {}

  static void delete(Path directory) {
    try (Stream<Path> all = Files.walk(directory)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }
}
