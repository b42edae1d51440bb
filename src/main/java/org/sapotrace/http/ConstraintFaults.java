package org.sapotrace.http;

import jakarta.validation.ConstraintViolation;
import jakarta.validation.ConstraintViolationException;
import jakarta.validation.ElementKind;
import jakarta.validation.Path;
import java.lang.reflect.Method;
import java.lang.reflect.Parameter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal.Fault;

/** What is wrong with a request whose body or parameters break the constraints declared on them. */
final class ConstraintFaults {

  private ConstraintFaults() {}

  /**
   * The problem that the violations are.
   *
   * @return null where something else than the arguments of the resource is wrong, which is a
   *     defect
   */
  static @Nullable Problem problem(ConstraintViolationException failure, Method resource) {
    Parameter[] parameters = resource.getParameters();
    List<Fault> ofBody = new ArrayList<>();
    List<Fault> ofParameters = new ArrayList<>();
    for (ConstraintViolation<?> violation : failure.getConstraintViolations()) {
      int index = parameterIndex(violation.getPropertyPath());
      if (index < 0) {
        return null;
      }
      String name = ParameterNames.of(parameters[index]);
      if (name == null) {
        String pointer = Pointers.of(violation.getPropertyPath());
        ofBody.add(fault(Pointers.spoken(pointer), violation, pointer));
      } else {
        ofParameters.add(fault(name, violation, null));
      }
    }
    return ofParameters.isEmpty()
        ? Problem.of(ProblemType.INVALID_INPUT, sorted(ofBody))
        : Problem.of(
            ProblemType.BAD_PARAMETER,
            String.join(" ", sorted(ofParameters).stream().map(Fault::detail).toList()));
  }

  private static Fault fault(String name, ConstraintViolation<?> violation, @Nullable String at) {
    return new Fault(name + " " + violation.getMessage() + ".", at);
  }

  // The validator's order is that of a hash; the same request deserves the same answer.
  private static List<Fault> sorted(List<Fault> faults) {
    return faults.stream()
        .sorted(
            Comparator.comparing((Fault f) -> String.valueOf(f.pointer()))
                .thenComparing(Fault::detail))
        .toList();
  }

  private static int parameterIndex(Path path) {
    for (Path.Node node : path) {
      if (node.getKind() == ElementKind.PARAMETER) {
        return node.as(Path.ParameterNode.class).getParameterIndex();
      }
    }
    return -1;
  }
}
