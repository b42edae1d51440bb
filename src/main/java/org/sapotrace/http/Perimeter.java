package org.sapotrace.http;

import io.quarkus.runtime.configuration.MemorySize;
import io.quarkus.vertx.http.runtime.VertxHttpConfig;
import io.quarkus.vertx.http.runtime.VertxHttpRecorder;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.Router;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Singleton;
import java.util.stream.IntStream;

/**
 * What holds for every exchange, whether a resource answers it or something beneath: the headers
 * that a browser needs, the lengths that are taken, and errors in the one form.
 */
@Singleton
final class Perimeter {

  private static final int FIRST = 10_000;
  // Behind the framework, which sets the limit of all bodies.
  private static final int LAST = 1;
  private static final int LONGEST_ADDRESS = 4096;

  private final ProblemAnswers answers;
  private final Door door;
  private final LoopbackGuard guard;
  private final long longestHeaders;
  private final long longestBody;

  Perimeter(ProblemAnswers answers, Door door, LoopbackGuard guard, VertxHttpConfig http) {
    this.answers = answers;
    this.door = door;
    this.guard = guard;
    this.longestHeaders = http.limits().maxHeaderSize().asLongValue();
    this.longestBody =
        http.limits().maxBodySize().map(MemorySize::asLongValue).orElse(Long.MAX_VALUE);
  }

  void admit(@Observes Filters filters) {
    filters.register(this::admit, FIRST);
    filters.register(this::limitBody, LAST);
  }

  void answerErrors(@Observes Router router) {
    IntStream.of(400, 404, 405, 406, 413, 415)
        .forEach(
            status ->
                router.errorHandler(
                    status, exchange -> answers.send(BareStatus.problem(status), exchange)));
    // Before the framework's own, which would tell a class name.
    router.route().order(Integer.MIN_VALUE).failureHandler(this::failed);
  }

  private void admit(RoutingContext exchange) {
    exchange.response().putHeader("X-Content-Type-Options", "nosniff");
    exchange.addHeadersEndHandler(done -> limitKeeping(exchange));
    door.open(exchange, () -> check(exchange));
  }

  private void check(RoutingContext exchange) {
    HttpServerRequest request = exchange.request();
    if (request.uri().length() > LONGEST_ADDRESS) {
      answers.send(BareStatus.problem(ProblemType.ADDRESS_TOO_LONG.status()), exchange);
    } else if (request.path().indexOf(';') >= 0) {
      // The framework would drop what follows, and answer as if it had not been asked for.
      answers.send(
          Problem.of(
              ProblemType.BAD_PARAMETER, "Parameters stand behind a question mark here, not a ;."),
          exchange);
    } else if (lengthOfBody(request) > longestBody(request)) {
      answers.send(BareStatus.problem(ProblemType.TOO_LARGE.status()), exchange);
    } else if (isEncoded(request)) {
      answers.send(
          Problem.of(
              ProblemType.UNSUPPORTED_MEDIA_TYPE,
              "Send the body as it is, neither compressed nor with a Content-Encoding."),
          exchange);
    } else if (sizeOfHeaders(request) > longestHeaders) {
      answers.send(BareStatus.problem(ProblemType.HEADERS_TOO_LARGE.status()), exchange);
    } else {
      guard
          .objection(request)
          .ifPresentOrElse(problem -> answers.send(problem, exchange), exchange::next);
    }
  }

  private void failed(RoutingContext exchange) {
    if (exchange.response().ended()) {
      // Answered beneath, as where a body turned out too long while it was read.
      return;
    }
    Throwable failure = exchange.failure();
    int status = exchange.statusCode();
    if (failure != null && (status < 400 || status >= 500)) {
      answers.send(
          Diagnosis.of(failure).orElseGet(() -> Diagnosis.defect(failure, exchange)), exchange);
    } else {
      answers.send(BareStatus.problem(status < 400 ? 500 : status), exchange);
    }
  }

  /**
   * What has an entity tag may be kept and asked about again; anything else is not kept, and events
   * that are streamed are not gathered on the way either.
   */
  private static void limitKeeping(RoutingContext exchange) {
    var headers = exchange.response().headers();
    if (!headers.contains(HttpHeaders.CACHE_CONTROL)) {
      headers.set(
          HttpHeaders.CACHE_CONTROL, headers.contains(HttpHeaders.ETAG) ? "no-cache" : "no-store");
    }
    if (String.valueOf(headers.get(HttpHeaders.CONTENT_TYPE)).startsWith("text/event-stream")) {
      headers.set("X-Accel-Buffering", "no");
    }
  }

  /** Bodies whose length turns out as they are read. */
  private void limitBody(RoutingContext exchange) {
    exchange.put(VertxHttpRecorder.MAX_REQUEST_SIZE_KEY, longestBody(exchange.request()));
    exchange.next();
  }

  /** What is made of many rows may be as long as the server takes; all else is held in memory. */
  private long longestBody(HttpServerRequest request) {
    return request.path().endsWith("/imports")
        ? longestBody
        : Math.min(longestBody, BodyLimit.LONGEST);
  }

  private static long lengthOfBody(HttpServerRequest request) {
    String length = request.getHeader(HttpHeaders.CONTENT_LENGTH);
    // The server has refused whatever is no number.
    return length == null ? 0 : Long.parseLong(length);
  }

  /** A few bytes that unfold to very many are not let in; nobody needs to send them. */
  private static boolean isEncoded(HttpServerRequest request) {
    String encoding = request.getHeader(HttpHeaders.CONTENT_ENCODING);
    return encoding != null && !encoding.equalsIgnoreCase("identity");
  }

  private static long sizeOfHeaders(HttpServerRequest request) {
    long size = 0;
    for (var header : request.headers()) {
      size += header.getKey().length() + header.getValue().length() + 4;
    }
    return size;
  }
}
