package org.sapotrace.webhook;

import io.vertx.core.Future;
import io.vertx.core.Vertx;
import io.vertx.core.buffer.Buffer;
import io.vertx.core.http.HttpClient;
import io.vertx.core.http.HttpClientOptions;
import io.vertx.core.http.HttpClientRequest;
import io.vertx.core.http.HttpClientResponse;
import io.vertx.core.http.HttpMethod;
import io.vertx.core.http.RequestOptions;
import io.vertx.core.net.SocketAddress;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.net.ConnectException;
import java.net.URI;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import javax.net.ssl.SSLException;
import org.jspecify.annotations.Nullable;

/*
 * The client of Vert.x, which is there already, because it connects to an address of our choice
 * while names and certificates are still checked by the host's name; Java's own client would look
 * the name up once more. Of an answer only the head is read: what a receiver says further is no
 * matter, and can be as long as it likes.
 */
/** Sends messages over HTTP, each over a connection of its own, following no redirects. */
@ApplicationScoped
public class Sender {

  private static final int CONNECT_MS = 5_000;
  private static final int TOTAL_MS = 15_000;

  private final TargetGuard guard;
  private final HttpClient client;
  private final int totalMs;

  @Inject
  Sender(Vertx vertx, TargetGuard guard) {
    this(vertx, guard, new HttpClientOptions(), TOTAL_MS);
  }

  Sender(Vertx vertx, TargetGuard guard, HttpClientOptions options, int totalMs) {
    this.guard = guard;
    this.totalMs = totalMs;
    this.client = vertx.createHttpClient(options.setKeepAlive(false).setConnectTimeout(CONNECT_MS));
  }

  /** Sends a message and waits for what comes of it, at most 15 s. */
  public Answer send(Message message) {
    RequestOptions request;
    try {
      request = request(message.target());
    } catch (IllegalArgumentException forbidden) {
      return Answer.none(String.valueOf(forbidden.getMessage()));
    }
    Future<HttpClientRequest> opening = client.request(request);
    try {
      return opening
          .compose(open -> exchange(open, message))
          .toCompletionStage()
          .toCompletableFuture()
          .get(totalMs, TimeUnit.MILLISECONDS);
    } catch (InterruptedException stopping) {
      Thread.currentThread().interrupt();
      return Answer.none("The service stopped while it was sent.");
    } catch (ExecutionException failed) {
      return Answer.none(reason(failed));
    } catch (TimeoutException late) {
      return Answer.none("The receiver did not answer in time.");
    } finally {
      opening.onSuccess(open -> open.connection().close());
    }
  }

  private RequestOptions request(URI target) {
    boolean secure = target.getScheme().equals("https");
    int usual = secure ? 443 : 80;
    int port = target.getPort() == -1 ? usual : target.getPort();
    String path = target.getRawPath().isEmpty() ? "/" : target.getRawPath();
    String query = target.getRawQuery();
    return new RequestOptions()
        .setMethod(HttpMethod.POST)
        .setServer(SocketAddress.inetSocketAddress(port, guard.address(target).getHostAddress()))
        .setHost(target.getHost())
        .setPort(port)
        .setSsl(secure)
        .setURI(query == null ? path : path + "?" + query)
        .setFollowRedirects(false);
  }

  private Future<Answer> exchange(HttpClientRequest request, Message message) {
    request
        .putHeader("Content-Type", "application/cloudevents+json; charset=UTF-8")
        .putHeader("User-Agent", "Sapotrace")
        .putHeader("webhook-id", message.id())
        .putHeader("webhook-timestamp", String.valueOf(message.sentAt().getEpochSecond()))
        .putHeader("webhook-signature", message.signatures());
    return request
        .send(Buffer.buffer(message.body()))
        .map(answered -> Answer.of(answered.statusCode(), retryAfter(answered, message.sentAt())));
  }

  private static @Nullable Instant retryAfter(HttpClientResponse response, Instant now) {
    String value = response.getHeader("Retry-After");
    if (value == null) {
      return null;
    }
    try {
      return value.matches("[0-9]{1,9}")
          ? now.plusSeconds(Long.parseLong(value))
          : ZonedDateTime.parse(value, DateTimeFormatter.RFC_1123_DATE_TIME).toInstant();
    } catch (DateTimeException unreadable) {
      return null;
    }
  }

  /** Why there was no answer, without the inner life of a library. */
  private static String reason(ExecutionException failure) {
    Throwable cause = failure.getCause();
    if (cause instanceof ConnectException) {
      return "The receiver could not be reached.";
    }
    return cause instanceof SSLException
        ? "No secure connection came about: check the receiver's certificate."
        : "The connection broke before the receiver answered.";
  }
}
