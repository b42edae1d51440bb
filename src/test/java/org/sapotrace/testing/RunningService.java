package org.sapotrace.testing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/**
 * The packaged service as a process of its own, as whoever runs it has it: started, killed, started
 * again on the same data.
 *
 * <p>Of the surroundings' own settings it sees none. Its port is free when it is launched.
 */
public final class RunningService implements AutoCloseable {

  private static final Path JAR = Path.of("target", "quarkus-app", "quarkus-run.jar");
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  /**
   * How a service is run.
   *
   * @param javaHome the Java that runs it
   * @param dataDirectory where its data is
   * @param environment further environment variables
   * @param arguments what follows the name of the jar
   * @param launcher a command that runs the one behind it in its place; or nothing
   */
  public record Setup(
      Path javaHome,
      Path dataDirectory,
      Map<String, String> environment,
      List<String> arguments,
      List<String> launcher) {

    /** On a data directory, with the Java that runs the tests and nothing else set. */
    public static Setup on(Path dataDirectory) {
      return new Setup(
          Path.of(System.getProperty("java.home")), dataDirectory, Map.of(), List.of(), List.of());
    }

    public Setup withJava(Path home) {
      return new Setup(home, dataDirectory, environment, arguments, launcher);
    }

    public Setup withEnvironment(String name, String value) {
      Map<String, String> more = new HashMap<>(environment);
      more.put(name, value);
      return new Setup(javaHome, dataDirectory, Map.copyOf(more), arguments, launcher);
    }

    public Setup withArguments(String... these) {
      return new Setup(javaHome, dataDirectory, environment, List.of(these), launcher);
    }

    public Setup withLauncher(String... command) {
      return new Setup(javaHome, dataDirectory, environment, arguments, List.of(command));
    }

    /** Starts the process and returns at once. */
    public RunningService launch() {
      return new RunningService(this);
    }

    /** Starts the process and returns when it answers requests. */
    public RunningService start() {
      RunningService service = launch();
      service.awaitReady();
      return service;
    }
  }

  private final HttpClient client = HttpClient.newHttpClient();
  private final Setup setup;
  private final int port;
  private final Path output;
  private final long launchedAt;
  private final Process process;
  private boolean leftDatabase;

  private RunningService(Setup setup) {
    this.setup = setup;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = free.getLocalPort();
      output = Files.createTempFile(Path.of("target"), "running-service-", ".log");
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
    launchedAt = System.nanoTime();
    process = launch();
  }

  private Process launch() {
    List<String> command = new ArrayList<>(setup.launcher());
    command.add(setup.javaHome().resolve("bin").resolve("java").toString());
    command.addAll(List.of("-jar", JAR.toString()));
    command.addAll(setup.arguments());
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    Map<String, String> environment = builder.environment();
    environment
        .keySet()
        .removeIf(name -> name.startsWith("QUARKUS_") || name.startsWith("SAPOTRACE_"));
    environment.put("QUARKUS_HTTP_PORT", String.valueOf(port));
    environment.put("SAPOTRACE_DATA_DIRECTORY", setup.dataDirectory().toString());
    environment.putAll(setup.environment());
    try {
      return builder.redirectOutput(output.toFile()).start();
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }

  /** Waits until the service answers requests; the time that took since its launch. */
  public Duration awaitReady() {
    return await(this::isReady);
  }

  /** Waits until the service has written a text. */
  public void awaitOutput(String text) {
    awaitOutput(text, PATIENCE);
  }

  /** The same for what takes long. */
  public void awaitOutput(String text, Duration patience) {
    await(() -> output().contains(text), patience);
  }

  private Duration await(BooleanSupplier done) {
    return await(done, PATIENCE);
  }

  private Duration await(BooleanSupplier done, Duration patience) {
    while (!done.getAsBoolean()) {
      Duration waited = Duration.ofNanos(System.nanoTime() - launchedAt);
      assertThat(process.isAlive()).as("still running: %s", output()).isTrue();
      assertThat(waited).as("in good time: %s", output()).isLessThan(patience);
      pause();
    }
    return Duration.ofNanos(System.nanoTime() - launchedAt);
  }

  private static void pause() {
    try {
      Thread.sleep(50);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
  }

  /** Whether the service answers, and says that it and its database are ready. */
  public boolean isReady() {
    try {
      return get("/q/health/ready").statusCode() == 200;
    } catch (UncheckedIOException notYet) {
      return false;
    }
  }

  public URI baseUrl() {
    return URI.create("http://127.0.0.1:" + port);
  }

  public HttpResponse<String> get(String path) {
    return send(HttpRequest.newBuilder(baseUrl().resolve(path)).build());
  }

  /** Sends any request, whose address is made from {@link #baseUrl()}. */
  public HttpResponse<String> send(HttpRequest request) {
    try {
      return client.send(request, HttpResponse.BodyHandlers.ofString());
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
  }

  /** What the process wrote to its standard output and standard error so far. */
  public String output() {
    try {
      return Files.readString(output);
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }

  public long pid() {
    return process.pid();
  }

  /** Kills the process as {@code kill -9} does; its PostgreSQL is left behind. */
  public void kill9() {
    process.destroyForcibly();
    awaitExit();
    leftDatabase = true;
  }

  /** Kills the process and starts another one on the same data, which is ready on return. */
  public RunningService restartAfterKill9() {
    kill9();
    leftDatabase = false;
    return again();
  }

  /** Another process on the same data, which is ready on return; this one has ended. */
  public RunningService again() {
    return setup.start();
  }

  /** Asks the process to end, as {@code kill} does; its exit status. */
  public int terminate() {
    process.destroy();
    return awaitExit();
  }

  /** Waits for the process to end by itself; its exit status. */
  public int awaitExit() {
    try {
      assertThat(process.waitFor(PATIENCE.toSeconds(), TimeUnit.SECONDS))
          .as("ended in good time: %s", output())
          .isTrue();
      return process.exitValue();
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
  }

  /** Ends the process, and the PostgreSQL that it left behind where it was killed. */
  @Override
  public void close() {
    if (process.isAlive()) {
      terminate();
    } else if (leftDatabase) {
      setup.start().terminate();
    }
  }
}
