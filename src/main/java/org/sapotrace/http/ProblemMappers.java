package org.sapotrace.http;

import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import io.vertx.ext.web.RoutingContext;
import jakarta.validation.ConstraintViolationException;
import jakarta.ws.rs.NotAllowedException;
import jakarta.ws.rs.NotFoundException;
import jakarta.ws.rs.NotSupportedException;
import jakarta.ws.rs.WebApplicationException;
import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.Set;
import org.jboss.resteasy.reactive.server.ServerExceptionMapper;

/** Answers whatever is thrown in a resource, or on the way to it, with a problem. */
public final class ProblemMappers {

  // Headers of the framework's own errors that tell the caller what would have worked.
  private static final List<String> KEPT =
      List.of(HttpHeaders.WWW_AUTHENTICATE, HttpHeaders.RETRY_AFTER);

  private static final int METHOD_NOT_ALLOWED = Response.Status.METHOD_NOT_ALLOWED.getStatusCode();

  private static final int UNSUPPORTED_MEDIA_TYPE =
      Response.Status.UNSUPPORTED_MEDIA_TYPE.getStatusCode();

  private final ProblemAnswers answers;
  private final AllowedMethods methods;

  ProblemMappers(ProblemAnswers answers, AllowedMethods methods) {
    this.answers = answers;
    this.methods = methods;
  }

  @ServerExceptionMapper
  public Response thrown(Throwable failure, RoutingContext exchange) {
    Problem problem = Diagnosis.of(failure).orElseGet(() -> Diagnosis.defect(failure, exchange));
    return answers.response(problem, exchange);
  }

  /** Without this one the framework's own mapper would be the nearer one. */
  @ServerExceptionMapper
  public Response mismatched(MismatchedInputException failure, RoutingContext exchange) {
    return thrown(failure, exchange);
  }

  @ServerExceptionMapper
  public Response violated(
      ConstraintViolationException failure, ResourceInfo resource, RoutingContext exchange) {
    Problem problem = ConstraintFaults.problem(failure, resource.getResourceMethod());
    return problem == null ? thrown(failure, exchange) : answers.response(problem, exchange);
  }

  @ServerExceptionMapper
  public Response framework(
      WebApplicationException failure,
      UriInfo address,
      ResourceInfo resource,
      RoutingContext exchange) {
    Response original = failure.getResponse();
    if (original.getStatus() < Response.Status.BAD_REQUEST.getStatusCode()) {
      return original;
    }
    if (original.getStatus() >= Response.Status.INTERNAL_SERVER_ERROR.getStatusCode()) {
      return thrown(failure, exchange);
    }
    Set<String> allowed = methods.of(exchange.normalizedPath());
    boolean isOtherMethod = isOtherMethod(failure, allowed, exchange);
    int status = isOtherMethod ? METHOD_NOT_ALLOWED : original.getStatus();
    Problem problem =
        failure.getCause() instanceof UnreadableParameter parameter
            ? parameter.problem(address, resource)
            : Diagnosis.of(failure)
                .orElseGet(
                    () ->
                        failure instanceof NotSupportedException
                            ? otherType(exchange)
                            : parameterOrStatus(failure, status));
    Response.ResponseBuilder answer = Response.fromResponse(answers.response(problem, exchange));
    if (isOtherMethod) {
      answer.header(HttpHeaders.ALLOW, String.join(", ", allowed));
    }
    copy(original.getHeaders(), answer);
    return answer.build();
  }

  /**
   * Whether the address is there for other methods. The framework looks for an address in the first
   * of all classes that begin like it, and finds none where another class has it.
   */
  private static boolean isOtherMethod(
      WebApplicationException failure, Set<String> allowed, RoutingContext exchange) {
    return failure instanceof NotAllowedException
        || (failure instanceof NotFoundException
            && failure.getCause() == null
            && !allowed.isEmpty()
            && !allowed.contains(exchange.request().method().name()));
  }

  /** Names the media types that would have been taken. */
  private Problem otherType(RoutingContext exchange) {
    List<String> taken =
        methods.typesOf(exchange.normalizedPath(), exchange.request().method().name());
    return taken.isEmpty()
        ? BareStatus.problem(UNSUPPORTED_MEDIA_TYPE)
        : Problem.of(
            ProblemType.UNSUPPORTED_MEDIA_TYPE,
            "Send the body as %s, and say so in Content-Type."
                .formatted(String.join(" or ", taken)));
  }

  private static Problem parameterOrStatus(WebApplicationException failure, int status) {
    // The framework's way of saying that a parameter could not be converted.
    return failure instanceof NotFoundException && failure.getCause() != null
        ? Problem.of(
            ProblemType.BAD_PARAMETER, "A parameter of the path or the query cannot be read.")
        : BareStatus.problem(status);
  }

  private static void copy(MultivaluedMap<String, Object> headers, Response.ResponseBuilder to) {
    KEPT.stream()
        .filter(headers::containsKey)
        .forEach(name -> to.header(name, headers.getFirst(name)));
  }
}
