package org.sapotrace.embedded;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.IOException;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Map;
import org.assertj.core.api.ThrowableAssertAlternative;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.refusal.Refusal;

class DataDirectoryTest {

  @TempDir Path temporary;

  @Test
  void isCreatedForItsOwnerAlone() throws IOException {
    Path wanted = temporary.resolve("new").resolve("data");
    DataDirectory.hold(wanted).close();
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(wanted)))
        .isEqualTo("rwx------");
  }

  @Test
  void mayBeASymbolicLink() throws IOException {
    Path real = Files.createDirectory(temporary.resolve("real"));
    Path link = Files.createSymbolicLink(temporary.resolve("link"), real);
    try (DataDirectory held = DataDirectory.hold(link)) {
      assertThat(held.cluster()).hasParentRaw(real.toRealPath());
    }
  }

  @Test
  void namesTheProcessThatHoldsIt() throws IOException {
    DataDirectory.hold(temporary).close();
    assertThat(temporary.resolve("sapotrace.lock"))
        .hasContent(String.valueOf(ProcessHandle.current().pid()));
  }

  @Test
  void forgetsWhatWasLeftUnfinished() throws IOException {
    Path unfinished;
    try (DataDirectory held = DataDirectory.hold(temporary)) {
      unfinished = held.unfinished();
      Files.writeString(unfinished.resolve("half"), "a cluster");
    }
    DataDirectory.hold(temporary).close();
    assertThat(unfinished).doesNotExist();
  }

  @Test
  void refusesTheDataOfAnotherMajorVersion() throws IOException {
    Path older = Files.createDirectory(temporary.resolve("postgresql-17"));
    Files.writeString(older.resolve("PG_VERSION"), "17\n");
    refusesToHold(temporary).withMessageContaining(older + " holds the data of a PostgreSQL 17");
    assertThat(temporary.resolve("postgresql-18")).doesNotExist();
  }

  @Test
  void leavesAnOlderClusterAloneBesideItsOwn() throws IOException {
    Path older = Files.createDirectory(temporary.resolve("postgresql-17"));
    Files.writeString(older.resolve("PG_VERSION"), "17\n");
    Path own = Files.createDirectory(temporary.resolve("postgresql-18"));
    Files.writeString(own.resolve("PG_VERSION"), "18\n");
    try (DataDirectory held = DataDirectory.hold(temporary)) {
      assertThat(held.cluster()).isEqualTo(own.toRealPath());
    }
  }

  @Test
  void refusesADirectoryThatIsItselfACluster() throws IOException {
    Files.writeString(temporary.resolve("PG_VERSION"), "18\n");
    refusesToHold(temporary).withMessageContaining("a directory of its own");
  }

  @Test
  void refusesAFile() throws IOException {
    Path file = Files.writeString(temporary.resolve("notes.txt"), "not a directory");
    refusesToHold(file).withMessageContaining(file + " is a file");
    refusesToHold(file.resolve("data")).withMessageContaining("cannot be used");
  }

  @Test
  void refusesADirectoryThatItMayNotWrite() throws IOException {
    Path readOnly =
        Files.createDirectory(
            temporary.resolve("read-only"),
            PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("r-x------")));
    assumeThat(Files.isWritable(readOnly)).as("root may write everywhere").isFalse();
    refusesToHold(readOnly).withMessageContaining("no permission on " + readOnly);
  }

  @Test
  void refusesAPlaceThatOtherProgramsEmpty() {
    refusesToHold(Path.of(System.getProperty("java.io.tmpdir"), "embedded-pg", "sapotrace"))
        .withMessageContaining("which other programs empty");
  }

  @ParameterizedTest
  @ValueSource(strings = {"a$b", "a`b", "a\"b", "a\\b", "a\nb"})
  void refusesANameThatAShellWouldRead(String name) {
    refusesToHold(temporary.resolve(name)).withMessageContaining("in its name");
    assertThat(temporary).isEmptyDirectory();
  }

  /** Such as Windows has; stood in for by the file system within an archive. */
  @Test
  void refusesAFileSystemWithoutOwners() throws IOException {
    Path archive = temporary.resolve("archive.zip");
    try (FileSystem ownerless = FileSystems.newFileSystem(archive, Map.of("create", "true"))) {
      refusesToHold(ownerless.getPath("/data")).withMessageContaining("no owner");
    }
  }

  private static ThrowableAssertAlternative<Refusal> refusesToHold(Path path) {
    return assertThatExceptionOfType(Refusal.class)
        .isThrownBy(() -> DataDirectory.hold(path))
        .withMessageContaining("SAPOTRACE_DATA_DIRECTORY");
  }
}
