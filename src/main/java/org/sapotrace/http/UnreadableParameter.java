package org.sapotrace.http;

import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;

/**
 * A parameter of path or query whose text stands for no value of its type. Who converts it is not
 * told its name; that is found when the resource is known.
 */
final class UnreadableParameter extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final Class<?> type;
  private final String text;
  private final String expected;

  /**
   * A fault of one parameter.
   *
   * @param expected what would have been taken, such as {@code must be a whole number}
   */
  UnreadableParameter(Class<?> type, String text, String expected) {
    super(expected);
    this.type = type;
    this.text = text;
    this.expected = expected;
  }

  /** The problem, naming the parameter of this type that was given with this text. */
  Problem problem(UriInfo address, ResourceInfo resource) {
    String name =
        ParameterNames.ofType(resource.getResourceMethod(), type).stream()
            .filter(
                each ->
                    address.getQueryParameters().getOrDefault(each, List.of()).contains(text)
                        || address.getPathParameters().getOrDefault(each, List.of()).contains(text))
            .findFirst()
            .orElse("A parameter");
    return Problem.of(ProblemType.BAD_PARAMETER, name + " " + expected + ".");
  }
}
