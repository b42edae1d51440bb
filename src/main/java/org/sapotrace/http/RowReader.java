package org.sapotrace.http;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.validation.ConstraintViolation;
import jakarta.validation.Validator;
import java.io.IOException;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.sapotrace.refusal.Refusal.Fault;

/** Reads JSON that stands in one row of a body, as strictly as a whole body is read. */
@ApplicationScoped
public class RowReader {

  private final ObjectMapper json;
  private final Validator validator;

  RowReader(ObjectMapper json, Validator validator) {
    this.json = json;
    this.validator = validator;
  }

  /**
   * The value in a row, which satisfies its constraints.
   *
   * @param type chooses the type of the value by what stands in the row
   * @throws RuntimeException that {@link #problem} explains, where the row is not such a value
   */
  public <T> T read(byte[] row, Function<JsonNode, Class<? extends T>> type) {
    try {
      T value = json.readValue(row, type.apply(json.readTree(row)));
      if (value == null) {
        throw Problem.of(ProblemType.MALFORMED, "The row is null.").asException();
      }
      requireValid(validator.validate(value));
      return value;
    } catch (IOException failure) {
      Problem problem = Diagnosis.ofReading(failure);
      throw problem == null
          ? new IllegalStateException("A row cannot be read", failure)
          : problem.asException();
    }
  }

  /** The problem with a row, of a failure to read or to record it; a defect is thrown on. */
  public Problem problem(RuntimeException failure) {
    return Diagnosis.of(failure).orElseThrow(() -> failure);
  }

  private static <T> void requireValid(Set<ConstraintViolation<T>> violations) {
    if (violations.isEmpty()) {
      return;
    }
    List<Fault> faults =
        violations.stream()
            .map(RowReader::fault)
            .sorted(Comparator.comparing((Fault fault) -> String.valueOf(fault.pointer())))
            .toList();
    throw Problem.of(ProblemType.INVALID_INPUT, faults).asException();
  }

  private static Fault fault(ConstraintViolation<?> violation) {
    String pointer = Pointers.of(violation.getPropertyPath());
    return new Fault(Pointers.spoken(pointer) + " " + violation.getMessage() + ".", pointer);
  }
}
