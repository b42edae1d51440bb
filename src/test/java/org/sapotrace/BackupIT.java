package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;
import org.sapotrace.testing.WashedFuel;

/**
 * What is recorded comes back from a backup: into an embedded database, and into an existing one.
 */
class BackupIT {

  @TempDir Path directory;

  @Test
  void restoresWhatWasBackedUpWhileTheServiceRan() throws Exception {
    Path file = directory.resolve("sapotrace.zip");
    Map<String, String> before;
    Path first = directory.resolve("first");
    try (RunningService service = Setup.on(first).start()) {
      WashedFuel.record(service);
      before = answers(service);
      assertThat(errand(Setup.on(first), "--backup", file)).contains("holds").contains("rows of");
      assertThat(errandFails(Setup.on(first), "--backup", file)).contains("is there already");
      assertThat(errandFails(Setup.on(first), "--restore", file)).contains("not empty");
      // What comes after the backup is not in it.
      service.get("/");
      WashedFuel.recordOneMore(service);
    }
    Setup second = Setup.on(directory.resolve("second"));
    assertThat(errand(second, "--restore", file)).contains("was restored");
    try (RunningService restored = second.start()) {
      answers(restored)
          .forEach((path, body) -> assertThat(body).as(path).isEqualTo(before.get(path)));
      // It goes on from there.
      WashedFuel.recordOneMore(restored);
    }
  }

  /** All that an auditor would look at, as the service answers it. */
  private static Map<String, String> answers(RunningService service) {
    Map<String, String> answers = new LinkedHashMap<>();
    for (String path :
        List.of(
            "/api/v1/lines",
            WashedFuel.STREAM,
            WashedFuel.STREAM + "/results?limit=1000",
            WashedFuel.STREAM + "/limits",
            WashedFuel.STREAM + "/charts/individuals.json",
            WashedFuel.STREAM + "/charts/ewma.json",
            "/api/v1/signals?limit=1000",
            "/api/v1/titrants")) {
      var answer = service.get(path);
      assertThat(answer.statusCode()).as(path).isEqualTo(200);
      answers.put(path, answer.body());
    }
    return answers;
  }

  private static String errand(Setup setup, String argument, Path file) {
    return run(setup, argument, file, 0);
  }

  private static String errandFails(Setup setup, String argument, Path file) {
    return run(setup, argument, file, 2);
  }

  private static String run(Setup setup, String argument, Path file, int status) {
    try (RunningService errand = setup.withArguments(argument, file.toString()).launch()) {
      assertThat(errand.awaitExit()).as(errand.output()).isEqualTo(status);
      assertThat(errand.output()).hasLineCount(1);
      return errand.output();
    }
  }

  @Test
  void leavesNothingHalfWrittenBehind() throws Exception {
    Path file = directory.resolve("missing").resolve("sapotrace.zip");
    assertThat(errandFails(Setup.on(directory.resolve("data")), "--backup", file))
        .contains("cannot be written");
    try (var left = Files.list(directory)) {
      assertThat(left).containsExactly(directory.resolve("data"));
    }
  }
}
