package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;

/** The packaged service with the demonstration plant. */
class DemonstrationIT {

  /** Half a minute where nothing else runs. */
  private static final Duration LONG = Duration.ofMinutes(8);

  private static final String FILLED = "The demonstration plant is filled in";

  @TempDir Path directory;

  /** In keys mode as well: the service records of its own accord, and needs no key for that. */
  @Test
  void fillsAnEmptyDatabaseOnceAndLeavesItAloneAfterwards() {
    Setup setup = Setup.on(directory.resolve("data")).withEnvironment("SAPOTRACE_ACCESS", "keys");
    try (RunningService service = setup.withArguments("--demo").launch()) {
      service.awaitOutput(FILLED, LONG);
      service.awaitOutput("Sapotrace is ready", LONG);
      // .ci/run tells how long that took.
      service.output().lines().filter(line -> line.contains(FILLED)).forEach(System.out::println);
      service.terminate();
    }
    try (RunningService again = setup.withEnvironment("SAPOTRACE_DEMO", "true").start()) {
      assertThat(again.output())
          .contains("not empty, so that the demonstration plant is left as it is")
          .doesNotContain(" days.");
    }
  }

  @Test
  void knowsAFillingThatWasBrokenOff() {
    Setup setup = Setup.on(directory.resolve("data")).withArguments("--demo");
    try (RunningService service = setup.launch()) {
      service.awaitOutput("Demonstration plant: 26 of 182 days.", LONG);
      try (RunningService again = service.restartAfterKill9()) {
        assertThat(again.output()).contains("plant in this database is not complete");
      }
    }
  }
}
