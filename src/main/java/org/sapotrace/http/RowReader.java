package org.sapotrace.http;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.validation.ConstraintViolation;
import jakarta.validation.Validator;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.sapotrace.refusal.Refusal.Fault;

/** Reads what stands in one row of a body, as strictly as a whole body is read. */
@ApplicationScoped
public class RowReader {

  private final ObjectMapper json;
  private final Validator validator;

  RowReader(ObjectMapper json, Validator validator) {
    this.json = json;
    this.validator = validator;
  }

  /**
   * The text of a row.
   *
   * @throws RuntimeException that {@link #problem} explains, where it is too long or no text
   */
  public static String text(SentRows.Row row) {
    if (row.isTooLong()) {
      throw Problem.of(
              ProblemType.TOO_LARGE,
              "The row is longer than 1 MiB, which no entry is: check where its line ends, and"
                  + " whether a quotation mark is missing.")
          .asException();
    }
    return text(row.bytes());
  }

  /** The same of bytes that are no longer than a row may be. */
  public static String text(byte[] row) {
    try {
      return UTF_8.newDecoder().decode(ByteBuffer.wrap(row)).toString();
    } catch (CharacterCodingException otherwise) {
      throw Problem.of(
              ProblemType.MALFORMED, "The row is not text in UTF-8: save the file as UTF-8.")
          .asException();
    }
  }

  /**
   * The value in a row of JSON, which satisfies its constraints.
   *
   * @param type chooses the type of the value by what stands in the row
   * @throws RuntimeException that {@link #problem} explains, where the row is not such a value
   */
  public <T> T read(String row, Function<JsonNode, Class<? extends T>> type) {
    try {
      return read(json.readTree(row), type);
    } catch (JsonProcessingException failure) {
      throw unreadable(failure);
    }
  }

  /** The same of JSON that was put together from what stands in a row. */
  public <T> T read(JsonNode row, Function<JsonNode, Class<? extends T>> type) {
    try {
      T value = json.treeToValue(row, type.apply(row));
      if (value == null) {
        throw Problem.of(ProblemType.MALFORMED, "The row is null.").asException();
      }
      requireValid(validator.validate(value));
      return value;
    } catch (JsonProcessingException failure) {
      throw unreadable(failure);
    }
  }

  private static RuntimeException unreadable(JsonProcessingException failure) {
    Problem problem = JsonFaults.problem(failure);
    return problem == null
        ? new IllegalStateException("A row cannot be read", failure)
        : problem.asException();
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
