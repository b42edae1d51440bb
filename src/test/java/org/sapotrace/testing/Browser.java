package org.sapotrace.testing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** A Chromium without a window, spoken to by its own protocol (Chrome DevTools Protocol). */
public final class Browser implements AutoCloseable {

  private static final Duration PATIENCE = Duration.ofSeconds(30);
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Process process;
  private final Path profile;
  private final WebSocket socket;
  private final BlockingQueue<JsonNode> answers = new LinkedBlockingQueue<>();
  private final List<String> complaints = new CopyOnWriteArrayList<>();
  private int sent;

  private Browser(Path program, Path profile) throws IOException, InterruptedException {
    this.profile = profile;
    process =
        new ProcessBuilder(
                program.toString(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-background-networking",
                "--remote-debugging-port=0",
                "--user-data-dir=" + profile,
                "about:blank")
            .redirectErrorStream(true)
            .redirectOutput(profile.resolve("output.log").toFile())
            .start();
    HttpClient client = HttpClient.newHttpClient();
    socket =
        client
            .newWebSocketBuilder()
            .buildAsync(page(client, port()), new Listener())
            .orTimeout(PATIENCE.toSeconds(), TimeUnit.SECONDS)
            .join();
    call("Page.enable", "{}");
    call("Log.enable", "{}");
  }

  /** The Chromium of this machine; empty where there is none. */
  public static Optional<Path> installed() {
    return Stream.of(System.getenv().getOrDefault("PATH", "").split(":"))
        .flatMap(
            folder ->
                Stream.of("chromium", "chromium-browser", "google-chrome")
                    .map(name -> Path.of(folder, name)))
        .filter(Files::isExecutable)
        .findFirst();
  }

  /** Starts it with a profile of its own, which is thrown away afterwards. */
  public static Browser start(Path program) {
    try {
      return new Browser(program, Files.createTempDirectory("browser-"));
    } catch (IOException failed) {
      throw new UncheckedIOException(failed);
    } catch (InterruptedException interrupted) {
      throw interrupted(interrupted);
    }
  }

  /** The port that it chose, which it writes into its profile. */
  private String port() throws IOException, InterruptedException {
    Path file = profile.resolve("DevToolsActivePort");
    long patience = System.nanoTime() + PATIENCE.toNanos();
    while (!Files.exists(file) || Files.readAllLines(file).size() < 2) {
      if (System.nanoTime() > patience || !process.isAlive()) {
        process.destroyForcibly();
        throw new AssertionError("no browser: " + Files.readString(profile.resolve("output.log")));
      }
      Thread.sleep(50);
    }
    return Files.readAllLines(file).get(0);
  }

  private static URI page(HttpClient client, String port) throws IOException, InterruptedException {
    URI list = URI.create("http://127.0.0.1:" + port + "/json/list");
    String targets =
        client
            .send(HttpRequest.newBuilder(list).build(), HttpResponse.BodyHandlers.ofString())
            .body();
    for (JsonNode target : JSON.readTree(targets)) {
      if (target.path("type").asText().equals("page")) {
        return URI.create(target.path("webSocketDebuggerUrl").asText());
      }
    }
    throw new AssertionError("the browser has no page");
  }

  /** Makes the page as large as a screen of so many points; a narrow one is a phone's. */
  public void resize(int width, int height) {
    call(
        "Emulation.setDeviceMetricsOverride",
        "{\"width\": %d, \"height\": %d, \"deviceScaleFactor\": 1, \"mobile\": %s}"
            .formatted(width, height, width < 600));
  }

  /** Whether the device prefers dark pages. */
  public void preferDark(boolean dark) {
    call(
        "Emulation.setEmulatedMedia",
        "{\"features\": [{\"name\": \"prefers-color-scheme\", \"value\": \"%s\"}]}"
            .formatted(dark ? "dark" : "light"));
  }

  /** Lets pages run no script of theirs. */
  public void withoutScripts() {
    call("Emulation.setScriptExecutionDisabled", "{\"value\": true}");
  }

  public void open(URI address) {
    call("Page.navigate", JSON.createObjectNode().put("url", address.toString()).toString());
    awaitLoad();
  }

  /** Does something that leads to another page, and waits for that. */
  public void follow(String script) {
    evaluate("document.documentElement.dataset.left = 'yes'");
    evaluate(script);
    await("document.documentElement.dataset.left === undefined");
    awaitLoad();
  }

  private void awaitLoad() {
    await("document.readyState === 'complete' && location.href !== 'about:blank'");
  }

  private void await(String condition) {
    long patience = System.nanoTime() + PATIENCE.toNanos();
    while (!evaluate(condition).asBoolean()) {
      if (System.nanoTime() > patience) {
        throw new AssertionError("still not so: " + condition);
      }
    }
  }

  /** The value of an expression in the page. */
  public JsonNode evaluate(String expression) {
    ObjectNode parameters =
        JSON.createObjectNode().put("expression", expression).put("returnByValue", true);
    return call("Runtime.evaluate", parameters.toString()).at("/result/value");
  }

  /** What is seen, as PNG. */
  public byte[] screenshot() {
    String picture = call("Page.captureScreenshot", "{\"format\": \"png\"}").path("data").asText();
    return Base64.getDecoder().decode(picture);
  }

  /** What the browser complained of: blocked contents, files that it did not get. */
  public List<String> complaints() {
    return List.copyOf(complaints);
  }

  private JsonNode call(String method, String parameters) {
    int id = ++sent;
    socket
        .sendText(
            "{\"id\": %d, \"method\": \"%s\", \"params\": %s}".formatted(id, method, parameters),
            true)
        .join();
    try {
      JsonNode answer = answers.poll(PATIENCE.toSeconds(), TimeUnit.SECONDS);
      while (answer != null && answer.path("id").asInt() != id) {
        answer = answers.poll(PATIENCE.toSeconds(), TimeUnit.SECONDS);
      }
      if (answer == null || answer.has("error")) {
        throw new AssertionError(method + " was answered by " + answer);
      }
      return answer.path("result");
    } catch (InterruptedException interrupted) {
      throw interrupted(interrupted);
    }
  }

  private static IllegalStateException interrupted(InterruptedException interrupted) {
    Thread.currentThread().interrupt();
    return new IllegalStateException(interrupted);
  }

  @Override
  public void close() {
    // Those that it started write into the profile until they have gone, too.
    List<ProcessHandle> family =
        Stream.concat(process.descendants(), Stream.of(process.toHandle())).toList();
    socket.abort();
    process.destroy();
    family.forEach(each -> each.onExit().orTimeout(PATIENCE.toSeconds(), TimeUnit.SECONDS).join());
    DeletedDirectory.delete(profile);
  }

  /** Puts answers together, which come in parts. */
  private final class Listener implements WebSocket.Listener {
    private final StringBuilder text = new StringBuilder();

    @Override
    public CompletionStage<?> onText(WebSocket from, CharSequence part, boolean last) {
      text.append(part);
      if (last) {
        take(text.toString());
        text.setLength(0);
      }
      from.request(1);
      return null;
    }

    private void take(String message) {
      try {
        JsonNode read = JSON.readTree(message);
        if (read.has("id")) {
          answers.add(read);
        } else if (read.path("method").asText().equals("Log.entryAdded")) {
          complaints.add(read.at("/params/entry/text").asText());
        }
      } catch (IOException notJson) {
        throw new UncheckedIOException(notJson);
      }
    }
  }
}
