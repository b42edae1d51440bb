package org.sapotrace;

import java.nio.file.Path;
import java.sql.Connection;
import java.util.List;
import java.util.Optional;
import org.sapotrace.backup.Backup;
import org.sapotrace.backup.Restoration;
import org.sapotrace.refusal.Refusal;

/** What Sapotrace does on the command line instead of serving. */
enum Errand {
  BACKUP("--backup") {
    @Override
    String run(Connection database, Path file) {
      return "%s holds %s.".formatted(file, Backup.write(database, file));
    }
  },
  RESTORE("--restore") {
    @Override
    String run(Connection database, Path file) {
      return "%s was restored: %s. Start Sapotrace on it now."
          .formatted(file, Restoration.read(database, file));
    }
  };

  /**
   * An errand with the file it is about.
   *
   * @param file to be written or read
   */
  record WithFile(Errand errand, Path file) {}

  private final String argument;

  Errand(String argument) {
    this.argument = argument;
  }

  /**
   * Does it.
   *
   * @return what was done, in a sentence
   * @throws Refusal where it cannot be done
   */
  abstract String run(Connection database, Path file);

  /**
   * The errand that arguments ask for.
   *
   * @return empty where they ask for none
   * @throws Refusal where an errand lacks its file, or more is said
   */
  static Optional<WithFile> of(List<String> arguments) {
    for (Errand errand : values()) {
      if (arguments.contains(errand.argument)) {
        if (arguments.size() != 2 || !arguments.get(0).equals(errand.argument)) {
          throw Refusal.impossible(
              "%s takes one file and nothing else: %1$s FILE".formatted(errand.argument));
        }
        return Optional.of(new WithFile(errand, Path.of(arguments.get(1))));
      }
    }
    return Optional.empty();
  }
}
