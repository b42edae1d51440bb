package org.sapotrace.http;

import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.spi.BeanManager;
import jakarta.inject.Singleton;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.HttpMethod;
import jakarta.ws.rs.Path;
import java.lang.annotation.Annotation;
import java.lang.reflect.Method;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Which methods an address takes, and which media types: what those are to be told who sent others,
 * and the framework does not.
 */
@Singleton
final class AllowedMethods {

  private static final Pattern VARIABLE = Pattern.compile("\\{\\s*\\w+\\s*(?::\\s*([^{}]+))?}");

  private record Operation(Pattern path, String method, List<String> types) {}

  private final List<Operation> operations;

  AllowedMethods(BeanManager beans) {
    this.operations =
        beans.getBeans(Object.class, Any.Literal.INSTANCE).stream()
            .<Class<?>>map(bean -> bean.getBeanClass())
            .filter(type -> type.isAnnotationPresent(Path.class))
            .distinct()
            .flatMap(AllowedMethods::operations)
            .toList();
  }

  /** The methods of a path, in alphabetical order; HEAD with GET, and OPTIONS with any. */
  Set<String> of(String path) {
    Set<String> allowed = new TreeSet<>();
    for (Operation operation : operations) {
      if (operation.path.matcher(path).matches()) {
        allowed.add(operation.method);
      }
    }
    if (allowed.contains(HttpMethod.GET)) {
      allowed.add(HttpMethod.HEAD);
    }
    if (!allowed.isEmpty()) {
      allowed.add(HttpMethod.OPTIONS);
    }
    return allowed;
  }

  /** The media types that a method takes at a path; empty where it takes any, or none. */
  List<String> typesOf(String path, String method) {
    return operations.stream()
        .filter(each -> each.method.equals(method) && each.path.matcher(path).matches())
        .flatMap(each -> each.types.stream())
        .distinct()
        .sorted()
        .toList();
  }

  private static Stream<Operation> operations(Class<?> resource) {
    String root = resource.getAnnotation(Path.class).value();
    return Stream.of(resource.getMethods()).flatMap(method -> operations(root, method));
  }

  private static Stream<Operation> operations(String root, Method method) {
    Path own = method.getAnnotation(Path.class);
    Pattern path = pattern(root + "/" + (own == null ? "" : own.value()));
    return Stream.of(method.getAnnotations())
        .map(Annotation::annotationType)
        .filter(type -> type.isAnnotationPresent(HttpMethod.class))
        .map(
            type ->
                new Operation(path, type.getAnnotation(HttpMethod.class).value(), types(method)));
  }

  private static List<String> types(Method method) {
    Consumes own = method.getAnnotation(Consumes.class);
    Consumes given = own == null ? method.getDeclaringClass().getAnnotation(Consumes.class) : own;
    return given == null ? List.of() : List.of(given.value());
  }

  private static Pattern pattern(String template) {
    String path = ("/" + template).replaceAll("/+", "/").replaceAll("/$", "");
    StringBuilder regex = new StringBuilder();
    Matcher variables = VARIABLE.matcher(path);
    int end = 0;
    while (variables.find()) {
      regex.append(Pattern.quote(path.substring(end, variables.start())));
      regex
          .append('(')
          .append(variables.group(1) == null ? "[^/]+" : variables.group(1))
          .append(')');
      end = variables.end();
    }
    return Pattern.compile(regex + Pattern.quote(path.substring(end)) + "/?");
  }
}
