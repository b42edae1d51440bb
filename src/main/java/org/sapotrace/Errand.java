package org.sapotrace;

import java.nio.file.Path;
import java.sql.Connection;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.backup.Backup;
import org.sapotrace.backup.Restoration;
import org.sapotrace.refusal.Refusal;

/** What Sapotrace does on the command line instead of serving. */
enum Errand {
  BACKUP("--backup", true) {
    @Override
    Outcome run(Connection database, Path file) {
      return Outcome.done("%s holds %s.".formatted(file, Backup.write(database, file)));
    }
  },
  RESTORE("--restore", true) {
    @Override
    Outcome run(Connection database, Path file) {
      return Outcome.done(
          "%s was restored: %s. Start Sapotrace on it now."
              .formatted(file, Restoration.read(database, file)));
    }
  },
  VERIFY_LEDGER("--verify-ledger", false) {
    @Override
    Outcome run(Connection database, Path none) {
      return LedgerVerification.of(database);
    }
  };

  /**
   * What came of an errand.
   *
   * @param status to exit with
   * @param sentence for whoever asked
   */
  record Outcome(int status, String sentence) {

    static Outcome done(String sentence) {
      return new Outcome(0, sentence);
    }
  }

  /**
   * An errand as it was asked for.
   *
   * @param file to be written or read; empty for an errand without one
   */
  record Asked(Errand errand, Path file) {

    Outcome run(Connection database) {
      return errand.run(database, file);
    }

    /** Whether it has nothing to do where there is no database yet. */
    boolean needsData() {
      return errand != RESTORE;
    }
  }

  private final String argument;
  private final boolean hasFile;

  Errand(String argument, boolean hasFile) {
    this.argument = argument;
    this.hasFile = hasFile;
  }

  /**
   * Does it.
   *
   * @throws Refusal where it cannot be done
   */
  abstract Outcome run(Connection database, Path file);

  /**
   * The errand that arguments ask for.
   *
   * @return null where they ask for none
   * @throws Refusal where an errand lacks its file, or more is said
   */
  static @Nullable Asked of(List<String> arguments) {
    for (Errand errand : values()) {
      if (arguments.contains(errand.argument)) {
        return errand.asked(arguments);
      }
    }
    return null;
  }

  private Asked asked(List<String> arguments) {
    if (arguments.size() != (hasFile ? 2 : 1) || !arguments.get(0).equals(argument)) {
      throw Refusal.impossible(
          hasFile
              ? "%s takes one file and nothing else: %1$s FILE".formatted(argument)
              : "%s stands alone.".formatted(argument));
    }
    return new Asked(this, Path.of(hasFile ? arguments.get(1) : ""));
  }
}
