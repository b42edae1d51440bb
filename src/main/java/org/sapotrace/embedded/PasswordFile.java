package org.sapotrace.embedded;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.SecureRandom;
import java.util.Base64;
import org.sapotrace.refusal.Refusal;

/** The one password of the database's roles, in a file that its owner alone can read. */
final class PasswordFile {

  private static final int RANDOM_BYTES = 24;

  private PasswordFile() {}

  /**
   * The password of a data directory, made up and kept when there is neither a password nor a
   * cluster yet. It is on the disk before a cluster can depend on it.
   *
   * @throws Refusal when there is a cluster and its password is lost
   */
  static String passwordIn(DataDirectory directory) throws IOException {
    Path file = directory.passwordFile();
    if (!Files.exists(file)) {
      if (Files.exists(directory.cluster())) {
        throw Refusal.impossible(
            """
            The file %s with the database's password is missing. Restore it from the backup of \
            this directory."""
                .formatted(file));
      }
      Path unfinished = directory.unfinishedFile();
      try (FileChannel channel = FileChannel.open(unfinished, StandardOpenOption.WRITE)) {
        channel.write(UTF_8.encode(random() + "\n"));
        channel.force(true);
      }
      directory.finish(unfinished, file);
    }
    return Files.readString(file).strip();
  }

  private static String random() {
    byte[] random = new byte[RANDOM_BYTES];
    new SecureRandom().nextBytes(random);
    return Base64.getUrlEncoder().encodeToString(random);
  }
}
