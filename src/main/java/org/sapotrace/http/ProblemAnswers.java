package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.vertx.core.buffer.Buffer;
import io.vertx.core.http.HttpHeaders;
import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Singleton;
import jakarta.ws.rs.core.Response;

/** Turns problems into answers, inside the resources' framework and beneath it. */
@Singleton
final class ProblemAnswers {

  private static final String RETRY_AFTER_SECONDS = "5";

  private final ObjectMapper json;

  ProblemAnswers(ObjectMapper json) {
    this.json = json;
  }

  Response response(Problem problem, RoutingContext exchange) {
    Response.ResponseBuilder answer =
        Response.status(problem.status())
            .type(Problem.MEDIA_TYPE)
            .entity(bytes(problem.at(path(exchange))));
    if (isPassing(problem)) {
      answer.header("Retry-After", RETRY_AFTER_SECONDS);
    }
    return answer.build();
  }

  void send(Problem problem, RoutingContext exchange) {
    if (exchange.response().ended()) {
      return;
    }
    if (exchange.response().headWritten()) {
      // Too late to say anything: the caller must not take the half for the whole.
      exchange.response().reset();
      return;
    }
    exchange
        .response()
        .putHeader("X-Content-Type-Options", "nosniff")
        .putHeader(HttpHeaders.CACHE_CONTROL, "no-store")
        .setStatusCode(problem.status())
        .putHeader(HttpHeaders.CONTENT_TYPE, Problem.MEDIA_TYPE);
    if (isPassing(problem)) {
      exchange.response().putHeader("Retry-After", RETRY_AFTER_SECONDS);
    }
    exchange.response().end(Buffer.buffer(bytes(problem.at(path(exchange)))));
  }

  private byte[] bytes(Problem problem) {
    try {
      return json.writeValueAsBytes(problem);
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("A problem could not be written", impossible);
    }
  }

  private static String path(RoutingContext exchange) {
    String path = exchange.request().path();
    return path == null ? "/" : path;
  }

  private static boolean isPassing(Problem problem) {
    return problem.status() == ProblemType.UNAVAILABLE.status()
        || problem.status() == ProblemType.TOO_MANY_REQUESTS.status();
  }
}
