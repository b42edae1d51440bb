package org.sapotrace.http;

import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.UriInfo;
import java.lang.reflect.Method;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import org.jboss.resteasy.reactive.server.ServerRequestFilter;

/**
 * Refuses query parameters that the resource does not take, or takes once, or that have no value: a
 * misspelt one must not silently change an answer.
 */
public final class QueryNames {

  private static final Map<Method, Map<String, Boolean>> KNOWN = new ConcurrentHashMap<>();

  @ServerRequestFilter
  public void filter(UriInfo address, ResourceInfo resource) {
    Map<String, List<String>> given = address.getQueryParameters();
    if (given.isEmpty()) {
      return;
    }
    Map<String, Boolean> known =
        KNOWN.computeIfAbsent(resource.getResourceMethod(), ParameterNames::inQuery);
    given.forEach(
        (name, values) -> {
          Boolean repeatable = known.get(name);
          if (repeatable == null) {
            throw refused(
                name
                    + " is not a known parameter; known here: "
                    + (known.isEmpty() ? "none" : String.join(", ", new TreeSet<>(known.keySet())))
                    + ".");
          }
          if (!repeatable && values.size() > 1) {
            throw refused(name + " is given more than once.");
          }
          if (values.contains("")) {
            throw refused(name + " has no value: give it one, or leave it out.");
          }
        });
  }

  private static RuntimeException refused(String detail) {
    return Problem.of(ProblemType.BAD_PARAMETER, detail).asException();
  }
}
