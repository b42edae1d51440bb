package org.sapotrace.webhook;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.sun.net.httpserver.HttpsConfigurator;
import com.sun.net.httpserver.HttpsServer;
import io.vertx.core.Vertx;
import io.vertx.core.http.HttpClientOptions;
import io.vertx.core.net.PfxOptions;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyStore;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Receiver;

class SenderTest {

  private static final Instant NOW = Instant.parse("2026-03-04T09:20:00.5Z");
  private static final Secret SECRET = Secret.random();
  private static final Secret FORMER = Secret.random();
  private static final InetAddress LOOPBACK = InetAddress.getLoopbackAddress();
  private static final String PASSWORD = "changeit";

  private static Vertx vertx;

  private final Receiver receiver = new Receiver();
  private final AtomicInteger lookUps = new AtomicInteger();

  @BeforeAll
  static void start() {
    vertx = Vertx.vertx();
  }

  @AfterAll
  static void stop() {
    vertx.close();
  }

  @AfterEach
  void hangUp() {
    receiver.close();
  }

  @Test
  void sendsASignedCloudEventToTheHostByItsName() {
    Answer answer = send("http://receiver.example:%d/a?b=c".formatted(receiver.port()));

    assertThat(answer).isEqualTo(new Answer(204, null, null));
    Receiver.Got got = receiver.all().get(0);
    assertThat(got.body()).isEqualTo("{\"ä\":1}");
    assertThat(got.header("Host")).isEqualTo("receiver.example:" + receiver.port());
    assertThat(got.header("Content-Type")).isEqualTo("application/cloudevents+json; charset=UTF-8");
    assertThat(got.header("webhook-id")).isEqualTo("id-1");
    assertThat(got.header("webhook-timestamp")).isEqualTo("1772616000");
    String body = "{\"ä\":1}";
    assertThat(got.header("webhook-signature"))
        .isEqualTo(SECRET.sign("id-1", NOW, body) + " " + FORMER.sign("id-1", NOW, body));
  }

  /** A name that stands for a public address when it is put, and for this machine later. */
  @Test
  void connectsToNoAddressThatWasNotLookedAt() throws Exception {
    InetAddress elsewhere = InetAddress.getByName("9.9.9.9");
    TargetGuard guard =
        new TargetGuard(
            AllowedHosts.parse(""),
            host -> new InetAddress[] {lookUps.incrementAndGet() == 1 ? elsewhere : LOOPBACK});
    URI target = guard.target("https://rebound.example/");

    Answer answer =
        new Sender(vertx, guard, new HttpClientOptions(), 2_000).send(message(target.toString()));

    assertThat(answer.problem()).contains("not on the public internet");
    // Once when it was put and once when it was sent: the connection asks no third time.
    assertThat(lookUps).hasValue(2);
  }

  @ParameterizedTest
  @ValueSource(ints = {200, 201, 202, 204, 299})
  void countsEvery2xxAsTaken(int status) {
    receiver.answer(status);
    assertThat(send(receiver.url()).isTaken()).isTrue();
  }

  @ParameterizedTest
  @ValueSource(ints = {301, 302, 307, 308})
  void followsNoRedirect(int status) {
    receiver.behave(
        (got, answer) -> {
          answer.set("Location", "/elsewhere");
          return status;
        });
    assertThat(send(receiver.url()).problem())
        .isEqualTo("The receiver answered %d.".formatted(status));
    assertThat(receiver.all()).hasSize(1);
  }

  @Test
  void knowsWhoWantsNoMore() {
    receiver.answer(410);
    assertThat(send(receiver.url()).isGone()).isTrue();
    receiver.answer(404);
    assertThat(send(receiver.url()).isGone()).isFalse();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      nullValues = "-",
      textBlock =
          """
          120                           | 2026-03-04T09:22:00.5Z
          0                             | 2026-03-04T09:20:00.5Z
          Wed, 04 Mar 2026 10:00:00 GMT | 2026-03-04T10:00:00Z
          soon                          | -
          -5                            | -
          99999999999                   | -
          """)
  void readsForHowLongTheReceiverWantsToBeLeftAlone(String value, Instant until) {
    receiver.behave(
        (got, answer) -> {
          answer.set("Retry-After", value);
          return 503;
        });
    assertThat(send(receiver.url()).retryAfter()).isEqualTo(until);
  }

  @Test
  void waitsNoLongerThanItShould() {
    receiver.behave(
        (got, answer) -> {
          pause(3_000);
          return 204;
        });
    assertThat(send(receiver.url(), 300).problem())
        .isEqualTo("The receiver did not answer in time.");
  }

  @Test
  void takesTheHeadOfAnAnswerForTheWhole() throws Exception {
    try (ServerSocket talker = new ServerSocket(0, 1, LOOPBACK)) {
      answering(
          talker, "HTTP/1.1 200 OK\r\nContent-Length: 999999999\r\n\r\n" + "x".repeat(1_000_000));
      assertThat(send("http://127.0.0.1:" + talker.getLocalPort()).isTaken()).isTrue();
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "nonsense\r\n\r\n", "HTTP/1.1 abc\r\n\r\n"})
  void isToldWhenTheReceiverSaysNothingSensible(String answer) throws Exception {
    try (ServerSocket liar = new ServerSocket(0, 1, LOOPBACK)) {
      answering(liar, answer);
      assertThat(send("http://127.0.0.1:" + liar.getLocalPort()).problem())
          .isEqualTo("The connection broke before the receiver answered.");
    }
  }

  @Test
  void isToldWhenNobodyListens() {
    String url = receiver.url();
    receiver.close();
    assertThat(send(url).problem()).isEqualTo("The receiver could not be reached.");
  }

  @Test
  void checksTheCertificateByTheNameThoughItConnectsToAnAddress(@TempDir Path directory)
      throws Exception {
    Path keys = certified("receiver.example", directory.resolve("keys.p12"));
    HttpsServer server = secured(keys);
    try {
      HttpClientOptions trusting =
          new HttpClientOptions()
              .setTrustOptions(new PfxOptions().setPath(keys.toString()).setPassword(PASSWORD));
      int port = server.getAddress().getPort();
      String named = "https://receiver.example:%d/".formatted(port);
      String other = "https://other.example:%d/".formatted(port);
      String distrust = "No secure connection came about: check the receiver's certificate.";

      assertThat(sender(trusting, 5_000).send(message(named)).isTaken()).isTrue();
      assertThat(sender(trusting, 5_000).send(message(other)).problem()).isEqualTo(distrust);
      assertThat(send(named).problem()).isEqualTo(distrust);
    } finally {
      server.stop(0);
    }
  }

  private static Path certified(String name, Path keys) throws Exception {
    Path keytool = Path.of(System.getProperty("java.home"), "bin", "keytool");
    Process making =
        new ProcessBuilder(
                keytool.toString(),
                "-genkeypair",
                "-alias",
                "receiver",
                "-keyalg",
                "EC",
                "-dname",
                "CN=" + name,
                "-ext",
                "SAN=dns:" + name,
                "-storetype",
                "PKCS12",
                "-keystore",
                keys.toString(),
                "-storepass",
                PASSWORD)
            .redirectErrorStream(true)
            .start();
    String said = new String(making.getInputStream().readAllBytes(), UTF_8);
    assertThat(making.waitFor()).as(said).isZero();
    // To be trusted the certificate stands in the same store as one of somebody else's, too.
    KeyStore store = KeyStore.getInstance("PKCS12");
    try (InputStream in = Files.newInputStream(keys)) {
      store.load(in, PASSWORD.toCharArray());
    }
    store.setCertificateEntry("trusted", store.getCertificate("receiver"));
    try (var out = Files.newOutputStream(keys)) {
      store.store(out, PASSWORD.toCharArray());
    }
    return keys;
  }

  private static HttpsServer secured(Path keys) throws Exception {
    KeyStore store = KeyStore.getInstance(keys.toFile(), PASSWORD.toCharArray());
    KeyManagerFactory managers =
        KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    managers.init(store, PASSWORD.toCharArray());
    SSLContext tls = SSLContext.getInstance("TLS");
    tls.init(managers.getKeyManagers(), null, null);
    HttpsServer server = HttpsServer.create(new InetSocketAddress(LOOPBACK, 0), 10);
    server.setHttpsConfigurator(new HttpsConfigurator(tls));
    server.createContext(
        "/",
        exchange -> {
          exchange.getRequestBody().readAllBytes();
          exchange.sendResponseHeaders(204, -1);
          exchange.close();
        });
    server.start();
    return server;
  }

  private static void answering(ServerSocket door, String answer) {
    Thread thread =
        new Thread(
            () -> {
              try (Socket socket = door.accept()) {
                assertThat(socket.getInputStream().read(new byte[8_192])).isPositive();
                socket.getOutputStream().write(answer.getBytes(UTF_8));
                socket.getOutputStream().flush();
                pause(answer.length() > 1_000 ? 500 : 0);
              } catch (java.io.IOException hungUp) {
                // The sender has heard enough.
              }
            });
    thread.setDaemon(true);
    thread.start();
  }

  private static void pause(int ms) {
    try {
      Thread.sleep(ms);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  private Answer send(String url) {
    return send(url, 5_000);
  }

  private Answer send(String url, int totalMs) {
    return sender(new HttpClientOptions(), totalMs).send(message(url));
  }

  private static Sender sender(HttpClientOptions options, int totalMs) {
    TargetGuard guard =
        new TargetGuard(
            AllowedHosts.parse("receiver.example, other.example, 127.0.0.1"),
            host -> new InetAddress[] {LOOPBACK});
    return new Sender(vertx, guard, options, totalMs);
  }

  private static Message message(String url) {
    return new Message(URI.create(url), "id-1", NOW, "{\"ä\":1}", List.of(SECRET, FORMER));
  }
}
