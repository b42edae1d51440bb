package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.vertx.core.buffer.Buffer;
import io.vertx.core.http.HttpHeaders;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Singleton;
import jakarta.ws.rs.core.Response;
import java.util.regex.Pattern;

/** Turns problems into answers, inside the resources' framework and beneath it. */
@Singleton
final class ProblemAnswers {

  private static final String RETRY_AFTER_SECONDS = "5";

  private static final Pattern HTML_FIRST =
      Pattern.compile("\\s*text/html\\s*(,|;|$)", Pattern.CASE_INSENSITIVE);
  private static final String HTML = "text/html;charset=UTF-8";

  private final ObjectMapper json;
  private final Instance<ProblemPage> pages;

  ProblemAnswers(ObjectMapper json, Instance<ProblemPage> pages) {
    this.json = json;
    this.pages = pages;
  }

  private record Content(String type, Buffer body) {}

  Response response(Problem problem, RoutingContext exchange) {
    Content content = content(problem.at(path(exchange)), exchange);
    Response.ResponseBuilder answer =
        Response.status(problem.status()).type(content.type).entity(content.body.getBytes());
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
    Content content = content(problem.at(path(exchange)), exchange);
    exchange
        .response()
        .putHeader("X-Content-Type-Options", "nosniff")
        .putHeader(HttpHeaders.CACHE_CONTROL, "no-store")
        .setStatusCode(problem.status())
        .putHeader(HttpHeaders.CONTENT_TYPE, content.type);
    if (isPassing(problem) && !exchange.response().headers().contains("Retry-After")) {
      exchange.response().putHeader("Retry-After", RETRY_AFTER_SECONDS);
    }
    exchange.response().end(content.body);
  }

  private Content content(Problem problem, RoutingContext exchange) {
    if (isForPeople(exchange)) {
      for (ProblemPage page : pages) {
        if (page.covers(exchange.normalizedPath())) {
          return new Content(HTML, Buffer.buffer(page.html(problem)));
        }
      }
    }
    return new Content(Problem.MEDIA_TYPE, Buffer.buffer(bytes(problem)));
  }

  /** Whether a page is what the caller would like best: browsers name it first. */
  private static boolean isForPeople(RoutingContext exchange) {
    String accepted = exchange.request().getHeader(HttpHeaders.ACCEPT);
    return accepted != null && HTML_FIRST.matcher(accepted).lookingAt();
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
