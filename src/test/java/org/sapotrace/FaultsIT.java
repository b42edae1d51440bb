package org.sapotrace;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.Clients;
import org.sapotrace.testing.Receiver;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;
import org.sapotrace.testing.WashedFuel;

/**
 * What can go wrong while results come in. Each time, what clients were told is held against what
 * is stored in the end.
 */
class FaultsIT {

  private static final int SOME = 60;
  private static final String ALLOWED = "SAPOTRACE_NOTICE_ALLOWED_HOSTS";
  private static final String LOOPBACK = "127.0.0.1";

  @TempDir Path directory;

  @Test
  void keepsEveryResultOnceWhenTheServiceIsKilled() {
    try (RunningService service = Setup.on(directory).start()) {
      WashedFuel.prepare(service);
      try (Clients clients = new Clients(WashedFuel.STREAM, service.baseUrl())) {
        clients.awaitAcknowledged(SOME);
        try (RunningService next = service.restartAfterKill9()) {
          clients.turnTo(next.baseUrl());
          clients.awaitAcknowledged(SOME);
          WashedFuel.assertStored(next, clients.stop());
        }
      }
    }
  }

  @Test
  void keepsEveryResultOnceWhenPostgresqlIsKilled() throws IOException {
    try (RunningService service = Setup.on(directory).start()) {
      WashedFuel.prepare(service);
      try (Clients clients = new Clients(WashedFuel.STREAM, service.baseUrl())) {
        clients.awaitAcknowledged(SOME);
        postmaster().destroyForcibly();
        clients.awaitTurnedAway(1);
        clients.awaitAcknowledged(SOME);
        WashedFuel.assertStored(service, clients.stop());
        assertThat(service.output()).contains("PostgreSQL is gone and is started again.");
      }
    }
  }

  @Test
  void recordsAsOneWhereTwoServicesShareADatabase() throws Exception {
    try (Receiver receiver = new Receiver();
        RunningService one = Setup.on(directory).withEnvironment(ALLOWED, LOOPBACK).start();
        RunningService other = onTheDatabaseOf(one).start()) {
      WashedFuel.prepare(one);
      WashedFuel.send(
          one,
          "PUT",
          "/api/v1/subscriptions/alerts",
          "{\"url\": \"%s\"}".formatted(receiver.url()));
      try (Clients clients = new Clients(WashedFuel.STREAM, one.baseUrl(), other.baseUrl())) {
        clients.awaitAcknowledged(2 * SOME);
        Map<String, JsonNode> told = clients.stop();
        List<String> delivered = awaitDelivered(one);
        assertThat(delivered).isNotEmpty();
        assertThat(receiver.ids()).containsExactlyInAnyOrderElementsOf(delivered);
        WashedFuel.assertStored(other, told);
      }
    }
  }

  @Test
  void answersWhatIsUnderWayWhenToldToEnd() throws Exception {
    try (RunningService service = Setup.on(directory).start();
        Socket client = new Socket(service.baseUrl().getHost(), service.baseUrl().getPort())) {
      WashedFuel.prepare(service);
      client.setSoTimeout(20_000);
      String body = Clients.row(0);
      OutputStream out = client.getOutputStream();
      String head =
          "POST %s/results HTTP/1.1\r\nHost: %s\r\nContent-Type: application/json\r\n"
              .formatted(WashedFuel.STREAM, service.baseUrl().getAuthority());
      out.write((head + "Content-Length: " + body.length() + "\r\n\r\n").getBytes(US_ASCII));
      out.write(body.substring(0, 20).getBytes(US_ASCII));
      out.flush();
      await().pollDelay(Duration.ofMillis(500)).until(service::isReady);

      CompletableFuture<Integer> end = CompletableFuture.supplyAsync(service::terminate);
      service.awaitOutput("Waiting for HTTP requests to complete");
      out.write(body.substring(20).getBytes(US_ASCII));
      out.flush();
      String answer = new String(client.getInputStream().readNBytes(12), US_ASCII);

      assertThat(answer).isEqualTo("HTTP/1.1 201");
      assertThat(end.get(60, TimeUnit.SECONDS)).isEqualTo(143);
    }
    try (RunningService next = Setup.on(directory).start()) {
      assertThat(next.get(WashedFuel.STREAM + "/results").body()).contains("K-0");
    }
  }

  /** On a file system of its own, in memory, which only the service and its children see. */
  @Test
  void answers503OnAFullDiskAndKeepsWhatItAcknowledged() throws Exception {
    String mount = "mount -t tmpfs -o size=320m tmpfs " + directory + " && exec \"$@\"";
    String[] own = {"unshare", "--user", "--map-root-user", "--mount", "sh", "-c", mount, "sh"};
    assumeThat(canRun(own)).as("a file system of its own can be had").isTrue();
    try (RunningService service = Setup.on(directory).withLauncher(own).start()) {
      WashedFuel.prepare(service);
      Path filler = Path.of("/proc/%d/root%s/filler".formatted(service.pid(), directory));
      try (Clients clients = new Clients(WashedFuel.STREAM, service.baseUrl())) {
        clients.awaitAcknowledged(SOME);
        fill(filler);
        clients.awaitTurnedAway(20);
        Files.delete(filler);
        clients.awaitAcknowledged(SOME);
        WashedFuel.assertStored(service, clients.stop());
      }
    }
  }

  private static boolean canRun(String... launcher) throws Exception {
    List<String> command = new ArrayList<>(List.of(launcher));
    command.add("true");
    return new ProcessBuilder(command).start().waitFor() == 0;
  }

  private static void fill(Path file) {
    byte[] much = new byte[1 << 16];
    try (OutputStream out = Files.newOutputStream(file)) {
      while (true) {
        out.write(much);
      }
    } catch (IOException full) {
      assertThat(full).hasMessageContaining("No space left on device");
    }
  }

  private static List<String> awaitDelivered(RunningService service) {
    List<String> ids = new ArrayList<>();
    await()
        .untilAsserted(
            () -> {
              ids.clear();
              String deliveries = "/api/v1/subscriptions/alerts/deliveries?limit=1000";
              for (JsonNode each : WashedFuel.json(service.get(deliveries).body()).get("items")) {
                assertThat(each.get("state").asText()).isEqualTo("delivered");
                ids.add(each.get("id").asText());
              }
              assertThat(ids).isNotEmpty();
            });
    return ids;
  }

  private Setup onTheDatabaseOf(RunningService one) throws IOException {
    assertThat(one.isReady()).isTrue();
    // The fourth line is the port: PostgreSQL documentation, storage layout, postmaster.pid.
    String port = Files.readAllLines(postmasterPid()).get(3);
    String password = Files.readString(directory.resolve("database-password")).strip();
    return Setup.on(directory.resolve("unused"))
        .withEnvironment(ALLOWED, LOOPBACK)
        .withEnvironment(
            "QUARKUS_DATASOURCE_JDBC_URL", "jdbc:postgresql://127.0.0.1:" + port + "/sapotrace")
        .withEnvironment("QUARKUS_DATASOURCE_USERNAME", "sapotrace")
        .withEnvironment("QUARKUS_DATASOURCE_PASSWORD", password);
  }

  private ProcessHandle postmaster() throws IOException {
    String pid = Files.readAllLines(postmasterPid()).get(0);
    return ProcessHandle.of(Long.parseLong(pid)).orElseThrow();
  }

  private Path postmasterPid() {
    return directory.resolve("postgresql-18").resolve("postmaster.pid");
  }
}
