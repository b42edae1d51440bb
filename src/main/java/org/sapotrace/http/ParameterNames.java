package org.sapotrace.http;

import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.CookieParam;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import java.lang.annotation.Annotation;
import java.lang.reflect.AnnotatedElement;
import java.lang.reflect.Executable;
import java.lang.reflect.Field;
import java.lang.reflect.Method;
import java.lang.reflect.Parameter;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jboss.resteasy.reactive.RestCookie;
import org.jboss.resteasy.reactive.RestHeader;
import org.jboss.resteasy.reactive.RestPath;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;

/** What the parameters of resources are called by those who send them. */
final class ParameterNames {

  private ParameterNames() {}

  /** The name in the path, the query or a header; null for a body or anything injected. */
  static @Nullable String of(Parameter parameter) {
    String annotated = of(parameter.getAnnotations(), parameter.getName());
    return annotated == null && isInPath(parameter) ? parameter.getName() : annotated;
  }

  /** Whether an address has a place of the parameter's name: such a one needs no annotation. */
  private static boolean isInPath(Parameter parameter) {
    Executable resource = parameter.getDeclaringExecutable();
    return Stream.of(resource, resource.getDeclaringClass())
        .map(element -> element.getAnnotation(Path.class))
        .anyMatch(path -> path != null && path.value().contains("{" + parameter.getName() + "}"));
  }

  /**
   * The name that annotations give.
   *
   * @param otherwise the name in Java, which holds where the annotation has none
   */
  static @Nullable String of(Annotation[] annotations, String otherwise) {
    return Stream.of(annotations)
        .map(ParameterNames::named)
        .filter(Objects::nonNull)
        .findFirst()
        .map(name -> name.isEmpty() ? otherwise : name)
        .orElse(null);
  }

  /**
   * The parameters that a resource takes from the query, those of {@link BeanParam} included.
   *
   * @return for each name, whether it may be given more than once
   */
  static Map<String, Boolean> inQuery(Method resource) {
    Map<String, Boolean> names = new HashMap<>();
    for (Parameter parameter : resource.getParameters()) {
      if (parameter.isAnnotationPresent(BeanParam.class)) {
        for (Field field : parameter.getType().getDeclaredFields()) {
          addQuery(names, field, field.getName(), field.getType());
        }
      } else {
        addQuery(names, parameter, parameter.getName(), parameter.getType());
      }
    }
    return names;
  }

  /** What the parameters of a type are called, in the order in which the resource takes them. */
  static List<String> ofType(Method resource, Class<?> type) {
    return Stream.of(resource.getParameters())
        .flatMap(
            parameter ->
                parameter.isAnnotationPresent(BeanParam.class)
                    ? ofType(parameter.getType().getDeclaredFields(), type)
                    : parameter.getType() == type
                        ? Stream.ofNullable(of(parameter))
                        : Stream.empty())
        .toList();
  }

  private static Stream<String> ofType(Field[] gathered, Class<?> type) {
    return Stream.of(gathered)
        .filter(field -> field.getType() == type)
        .flatMap(field -> Stream.ofNullable(of(field.getAnnotations(), field.getName())));
  }

  private static void addQuery(
      Map<String, Boolean> names, AnnotatedElement element, String name, Class<?> type) {
    if (element.isAnnotationPresent(QueryParam.class)
        || element.isAnnotationPresent(RestQuery.class)) {
      names.put(
          String.valueOf(of(element.getAnnotations(), name)),
          Collection.class.isAssignableFrom(type) || type.isArray());
    }
  }

  private static @Nullable String named(Annotation annotation) {
    if (annotation instanceof QueryParam query) {
      return query.value();
    }
    if (annotation instanceof PathParam path) {
      return path.value();
    }
    if (annotation instanceof HeaderParam header) {
      return header.value();
    }
    if (annotation instanceof CookieParam cookie) {
      return cookie.value();
    }
    return namedByFramework(annotation);
  }

  private static @Nullable String namedByFramework(Annotation annotation) {
    if (annotation instanceof RestQuery query) {
      return query.value();
    }
    if (annotation instanceof RestPath path) {
      return path.value();
    }
    if (annotation instanceof RestHeader header) {
      return header.value();
    }
    return annotation instanceof RestCookie cookie ? cookie.value() : null;
  }
}
