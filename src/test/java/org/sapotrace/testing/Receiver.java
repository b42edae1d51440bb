package org.sapotrace.testing;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/** A receiver of notices on loopback, which answers as a test wants. */
public final class Receiver implements AutoCloseable {

  /** A message as it came. */
  public record Got(Headers headers, String body) {

    public String header(String name) {
      return headers.getFirst(name);
    }
  }

  /** What is done with a message before it is answered, and the status of the answer. */
  @FunctionalInterface
  public interface Behaviour {
    int answer(Got got, Headers answer) throws IOException;
  }

  private final HttpServer server;
  private final ExecutorService threads = Executors.newCachedThreadPool();
  private final List<Got> all = new CopyOnWriteArrayList<>();
  private volatile Behaviour behaviour = (got, answer) -> 204;

  /** A receiver that takes everything. */
  public Receiver() {
    this(0);
  }

  /** The same on that port; 0 for any that is free. */
  public Receiver(int port) {
    try {
      server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 50);
    } catch (IOException taken) {
      throw new UncheckedIOException(taken);
    }
    server.setExecutor(threads);
    server.createContext("/", this::receive);
    server.start();
  }

  private void receive(HttpExchange exchange) throws IOException {
    try (exchange) {
      String body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
      Got got = new Got(exchange.getRequestHeaders(), body);
      all.add(got);
      int status = behaviour.answer(got, exchange.getResponseHeaders());
      exchange.sendResponseHeaders(status, -1);
    }
  }

  /** From now on it answers with that status. */
  public void answer(int status) {
    behaviour = (got, answer) -> status;
  }

  public void behave(Behaviour wanted) {
    behaviour = wanted;
  }

  public int port() {
    return server.getAddress().getPort();
  }

  public String url() {
    return "http://127.0.0.1:" + port() + "/sapotrace";
  }

  /** All messages that came, those among them that were not taken, in the order of coming. */
  public List<Got> all() {
    return List.copyOf(all);
  }

  /** The identifiers of all that came, in order. */
  public List<String> ids() {
    return all.stream().map(got -> got.header("webhook-id")).toList();
  }

  public void forget() {
    all.clear();
  }

  @Override
  public void close() {
    server.stop(0);
    threads.shutdownNow();
  }
}
