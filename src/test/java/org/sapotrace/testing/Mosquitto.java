package org.sapotrace.testing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** A Mosquitto of a test's own on loopback, which lets one user in, and its two clients. */
public final class Mosquitto implements AutoCloseable {

  public static final String USER = "bench";
  public static final String PASSWORD = "as invented";

  private static final Duration PATIENCE = Duration.ofSeconds(30);

  private final Path directory;
  private final int port;
  private Process broker;
  private final List<Process> subscribers = new ArrayList<>();

  private Mosquitto(Path directory) throws IOException {
    this.directory = directory;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = free.getLocalPort();
    }
    run("mosquitto_passwd", "-b", "-c", directory.resolve("users").toString(), USER, PASSWORD);
    // Started by root it would otherwise become somebody who may not read the directory.
    Files.writeString(
        directory.resolve("mosquitto.conf"),
        """
        listener %d 127.0.0.1
        allow_anonymous false
        password_file %s/users
        persistence true
        persistence_location %s/
        user root
        """
            .formatted(port, directory, directory));
  }

  /** Whether the broker and its clients are there. */
  public static boolean isInstalled() {
    return Stream.of("mosquitto", "mosquitto_passwd", "mosquitto_pub", "mosquitto_sub")
        .allMatch(name -> program(name).isPresent());
  }

  private static Optional<Path> program(String name) {
    return Stream.of((System.getenv().getOrDefault("PATH", "") + ":/usr/sbin").split(":"))
        .map(folder -> Path.of(folder, name))
        .filter(Files::isExecutable)
        .findFirst();
  }

  /** Starts it, to keep what it has to keep in that directory. */
  public static Mosquitto in(Path directory) throws IOException {
    Mosquitto mosquitto = new Mosquitto(directory);
    mosquitto.start();
    return mosquitto;
  }

  public void start() throws IOException {
    broker =
        new ProcessBuilder(
                program("mosquitto").orElseThrow().toString(),
                "-c",
                directory.resolve("mosquitto.conf").toString())
            .redirectErrorStream(true)
            .redirectOutput(directory.resolve("mosquitto.log").toFile())
            .start();
    await().atMost(PATIENCE).until(this::isListening);
  }

  private boolean isListening() {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      return socket.isConnected();
    } catch (IOException notYet) {
      return false;
    }
  }

  /** Ends it; what waits for absent subscribers it keeps. */
  public void stop() {
    end(broker);
  }

  private static void end(Process process) {
    process.destroy();
    try {
      process.waitFor();
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
  }

  public String url() {
    return "mqtt://127.0.0.1:" + port;
  }

  /** Has all messages under a topic written to a file, each as its topic, a blank and its text. */
  public Path subscribe(String filter) throws IOException {
    String name = "listener" + subscribers.size();
    // Ends as soon as the broker knows of it, and keeps for it what comes.
    client("mosquitto_sub", "-i", name, "-c", "-q", "1", "-t", filter, "-E");
    Path output = directory.resolve(name);
    subscribers.add(
        new ProcessBuilder(
                command("mosquitto_sub", "-i", name, "-c", "-q", "1", "-t", filter, "-F", "%t %p"))
            .redirectErrorStream(true)
            .redirectOutput(output.toFile())
            .start());
    return output;
  }

  public void publish(String topic, String message) throws IOException {
    client("mosquitto_pub", "-q", "1", "-t", topic, "-m", message);
  }

  /** The same of a file, as it is. */
  public void publish(String topic, Path message) throws IOException {
    client("mosquitto_pub", "-q", "1", "-t", topic, "-f", message.toString());
  }

  /** A command line as somebody types it who has set up the client for this broker. */
  public void run(String line) throws IOException {
    run("bash", "-c", line.replaceFirst("^mosquitto_pub", String.join(" ", quoted())));
  }

  private List<String> quoted() {
    return command("mosquitto_pub").stream().map(word -> "'" + word + "'").toList();
  }

  private void client(String name, String... arguments) throws IOException {
    List<String> command = command(name, arguments);
    run(command.get(0), command.subList(1, command.size()).toArray(String[]::new));
  }

  private List<String> command(String name, String... arguments) {
    List<String> command = new ArrayList<>();
    command.add(program(name).orElseThrow().toString());
    command.addAll(List.of("-h", "127.0.0.1", "-p", String.valueOf(port)));
    command.addAll(List.of("-u", USER, "-P", PASSWORD));
    command.addAll(List.of(arguments));
    return command;
  }

  private static void run(String name, String... arguments) throws IOException {
    List<String> command = new ArrayList<>(List.of(arguments));
    command.add(0, name);
    Process process = new ProcessBuilder(command).inheritIO().start();
    try {
      assertThat(process.waitFor()).as(command.toString()).isZero();
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
  }

  /** What a subscriber has written so far. */
  public static List<String> lines(Path output) {
    try {
      return Files.readAllLines(output);
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    }
  }

  /** Ends all of them; until then they write into the directory. */
  @Override
  public void close() {
    subscribers.forEach(Mosquitto::end);
    end(broker);
  }
}
