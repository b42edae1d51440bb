package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.embedded.EmbeddedDatabase;
import org.sapotrace.testing.Clients;
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
      Path nowhere = directory.resolve("missing").resolve("sapotrace.zip");
      assertThat(errandFails(Setup.on(first), "--backup", nowhere)).contains("cannot be written");
      // What comes after the backup is not in it.
      WashedFuel.recordOneMore(service);
    }
    Setup second = Setup.on(directory.resolve("second"));
    assertThat(errand(second, "--restore", file)).contains("was restored");
    assertThat(run(second.withArguments("--verify-ledger"), 0)).contains("The ledger is intact");
    try (RunningService restored = second.start()) {
      answers(restored)
          .forEach((path, body) -> assertThat(body).as(path).isEqualTo(before.get(path)));
      // It goes on from there.
      WashedFuel.recordOneMore(restored);
    }
  }

  @Test
  void restoresAnExistingDatabaseIntoAnotherWhereAllIsJudgedAsBefore() {
    Path file = directory.resolve("sapotrace.zip");
    Map<String, JsonNode> told;
    try (EmbeddedDatabase one = EmbeddedDatabase.start(directory.resolve("one"));
        EmbeddedDatabase other = EmbeddedDatabase.start(directory.resolve("other"))) {
      try (RunningService service = on(one).start()) {
        WashedFuel.prepare(service);
        try (Clients clients = new Clients(WashedFuel.STREAM, service.baseUrl())) {
          clients.awaitAcknowledged(60);
          told = clients.stop();
        }
      }
      assertThat(errand(on(one), "--backup", file)).contains("rows of");
      assertThat(errand(on(other), "--restore", file)).contains("was restored");
      assertThat(run(on(other).withArguments("--verify-ledger"), 0)).contains("intact");
      try (RunningService restored = on(other).start()) {
        WashedFuel.assertStored(restored, told);
      }
    }
  }

  private Setup on(EmbeddedDatabase existing) {
    return Setup.on(directory.resolve("unused"))
        .withEnvironment("QUARKUS_DATASOURCE_JDBC_URL", existing.jdbcUrl())
        .withEnvironment("QUARKUS_DATASOURCE_USERNAME", existing.username())
        .withEnvironment("QUARKUS_DATASOURCE_PASSWORD", existing.password());
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
    return run(setup.withArguments(argument, file.toString()), 0);
  }

  private static String errandFails(Setup setup, String argument, Path file) {
    return run(setup.withArguments(argument, file.toString()), 2);
  }

  private static String run(Setup setup, int status) {
    try (RunningService errand = setup.launch()) {
      assertThat(errand.awaitExit()).as(errand.output()).isEqualTo(status);
      assertThat(errand.output()).hasLineCount(1);
      return errand.output();
    }
  }

  @Test
  void backsUpNothingWhereNothingIs() throws IOException {
    Path file = directory.resolve("sapotrace.zip");
    assertThat(errandFails(Setup.on(directory.resolve("none")), "--backup", file))
        .contains("There is no data in");
    try (Stream<Path> left = Files.list(directory)) {
      assertThat(left).isEmpty();
    }
  }
}
