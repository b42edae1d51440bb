package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;

/** The life of the packaged service: started, started twice, killed, started again, ended. */
class PackagedServiceIT {

  /** Kept from test to test, so that PostgreSQL is unpacked once. */
  @TempDir static Path directory;

  @Test
  void saysWhichPortItFoundWhereAnyWillDo() {
    try (RunningService service =
        Setup.on(directory.resolve("data")).withEnvironment("QUARKUS_HTTP_PORT", "0").launch()) {
      service.awaitOutput("its data is in");

      assertThat(service.output())
          .containsPattern("Sapotrace is ready on http://127\\.0\\.0\\.1:[1-9][0-9]+;");
    }
  }

  @Test
  void isReadyOnAnEmptyDirectoryAndSaysWhereItIs(@TempDir Path empty) throws IOException {
    try (RunningService service = Setup.on(empty).launch()) {
      Duration taken = service.awaitReady();
      System.out.printf("Ready on an empty data directory after %d ms.%n", taken.toMillis());
      assertThat(service.output())
          .contains("Sapotrace is ready on " + service.baseUrl())
          .contains("its data is in " + empty)
          .doesNotContain(Files.readString(empty.resolve("database-password")).strip());
      assertThat(service.get("/q/health/live").statusCode()).isEqualTo(200);
    }
  }

  @Test
  void stopsItsPostgresqlAfterItselfWhenToldToEnd() {
    try (RunningService service = Setup.on(directory).start()) {
      assertThat(postmasterPid()).exists();
      // 128 and the number of the signal, 15 for SIGTERM: the JVM's own status.
      assertThat(service.terminate()).isEqualTo(143);
      assertThat(postmasterPid()).doesNotExist();
      assertThat(service.output()).contains("sapotrace stopped in").doesNotContain("ERROR");
      assertThat(directory.resolve("postgresql.log"))
          .content()
          .contains("database system is shut down");
    }
  }

  @Test
  void startsAtTheFirstTryAfterItWasKilledAndItsPostgresqlLivesOn() throws IOException {
    try (RunningService killed = Setup.on(directory).start()) {
      String leftBehind = Files.readString(postmasterPid());
      try (RunningService next = killed.restartAfterKill9()) {
        assertThat(Files.readString(postmasterPid())).isNotEqualTo(leftBehind);
        assertThat(directory.resolve("postgresql.previous.log"))
            .content()
            .contains("database system is shut down");
        assertThat(next.isReady()).isTrue();
      }
    }
  }

  @Test
  void refusesASecondStartAndLeavesTheFirstAlone() throws IOException {
    try (RunningService first = Setup.on(directory).start();
        RunningService second = Setup.on(directory).launch()) {
      String postmaster = Files.readString(postmasterPid());
      assertThat(second.awaitExit()).isEqualTo(1);
      assertThat(second.output())
          .contains(
              "Another Sapotrace is running on this data directory (process " + first.pid() + ")");
      assertThat(first.isReady()).isTrue();
      assertThat(Files.readString(postmasterPid())).isEqualTo(postmaster);
    }
  }

  @Test
  void usesAnExistingPostgresqlAndStartsNoneOfItsOwn(@TempDir Path unused) throws IOException {
    Path ownData = unused.resolve("data");
    try (RunningService other = Setup.on(directory).start()) {
      // The fourth line is the port: PostgreSQL documentation, storage layout, postmaster.pid.
      String port = Files.readAllLines(postmasterPid()).get(3);
      String password = Files.readString(directory.resolve("database-password")).strip();
      Setup setup =
          Setup.on(ownData)
              .withEnvironment(
                  "QUARKUS_DATASOURCE_JDBC_URL",
                  "jdbc:postgresql://127.0.0.1:" + port + "/sapotrace")
              .withEnvironment("QUARKUS_DATASOURCE_USERNAME", "sapotrace");
      try (RunningService wrong =
          setup.withEnvironment("QUARKUS_DATASOURCE_PASSWORD", "wrong").launch()) {
        assertThat(wrong.awaitExit()).isEqualTo(1);
        assertThat(wrong.output()).contains("password authentication failed").hasLineCount(1);
      }
      try (RunningService service =
          setup.withEnvironment("QUARKUS_DATASOURCE_PASSWORD", password).start()) {
        assertThat(service.output()).contains("its data is in the configured database");
        service.terminate();
      }
      assertThat(other.isReady()).isTrue();
      assertThat(ownData).doesNotExist();
    }
  }

  private static Path postmasterPid() {
    return directory.resolve("postgresql-18").resolve("postmaster.pid");
  }
}
