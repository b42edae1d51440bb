package org.sapotrace.contract;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.HttpMethod;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import java.lang.annotation.Annotation;
import java.lang.reflect.AnnotatedElement;
import java.lang.reflect.Method;
import java.lang.reflect.Parameter;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jboss.resteasy.reactive.RestQuery;
import org.sapotrace.http.Requires;

/** The operations under {@code /api/v1} as the resource classes of the service declare them. */
final class Operations {

  private static final String JSON = "application/json";

  /**
   * An operation, in the words of the contract.
   *
   * @param scope what it needs
   * @param query the names of its query parameters
   * @param taken the media types of its request body; empty where it has none
   * @param answered the media types of its answers
   */
  record Declared(
      String method,
      String path,
      String scope,
      Set<String> query,
      Set<String> taken,
      Set<String> answered) {}

  private static final List<Declared> DECLARED = declare();

  private Operations() {}

  static List<Declared> declared() {
    return DECLARED;
  }

  private static List<Declared> declare() {
    return new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("org.sapotrace")
            .stream()
            .filter(type -> type.isAnnotatedWith(Path.class))
            .map(JavaClass::reflect)
            .flatMap(Operations::of)
            .filter(operation -> operation.path().startsWith("/api/v1"))
            .toList();
  }

  private static Stream<Declared> of(Class<?> resource) {
    return Stream.of(resource.getDeclaredMethods())
        .flatMap(
            method ->
                Stream.of(method.getAnnotations())
                    .map(annotation -> annotation.annotationType())
                    .map(type -> type.getAnnotation(HttpMethod.class))
                    .filter(verb -> verb != null)
                    .map(verb -> declared(verb.value(), method)));
  }

  private static Declared declared(String verb, Method method) {
    Path below = method.getAnnotation(Path.class);
    String path =
        (method.getDeclaringClass().getAnnotation(Path.class).value()
                + (below == null ? "" : "/" + below.value()))
            .replaceAll("/+", "/")
            .replaceAll("\\{\\s*(\\w+)[^}]*}", "{$1}");
    Consumes consumes = nearest(method, Consumes.class);
    Produces produces = nearest(method, Produces.class);
    return new Declared(
        verb,
        path,
        method.getAnnotation(Requires.class).value().id(),
        query(method),
        consumes == null || verb.equals("GET") ? Set.of() : Set.of(consumes.value()),
        Set.of(produces == null ? new String[] {JSON} : produces.value()));
  }

  private static <A extends Annotation> A nearest(Method method, Class<A> type) {
    A own = method.getAnnotation(type);
    return own == null ? method.getDeclaringClass().getAnnotation(type) : own;
  }

  private static Set<String> query(Method method) {
    Set<String> names = new TreeSet<>();
    for (Parameter parameter : method.getParameters()) {
      add(names, parameter, parameter.getName());
      if (parameter.isAnnotationPresent(BeanParam.class)) {
        Stream.of(parameter.getType().getDeclaredFields())
            .forEach(field -> add(names, field, field.getName()));
      }
    }
    return names;
  }

  private static void add(Set<String> names, AnnotatedElement element, String otherwise) {
    QueryParam standard = element.getAnnotation(QueryParam.class);
    RestQuery brief = element.getAnnotation(RestQuery.class);
    if (standard != null || brief != null) {
      String given = standard == null ? brief.value() : standard.value();
      names.add(given.isEmpty() ? otherwise : given);
    }
  }
}
