package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.exc.InputCoercionException;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.exc.InvalidFormatException;
import com.fasterxml.jackson.databind.exc.InvalidNullException;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.databind.exc.ValueInstantiationException;
import java.time.temporal.TemporalAccessor;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal.Fault;

/**
 * What is wrong with a JSON body, in words for its sender. None of the parser's own messages is
 * passed on, as they name classes.
 */
final class JsonFaults {

  private static final Pattern DUPLICATE =
      Pattern.compile("Duplicate (?:field|Object property) ['\"](.*?)['\"]", Pattern.DOTALL);
  private static final int MOST_FIELDS = 30;

  private JsonFaults() {}

  /** The problem that a failure of reading JSON is; null where it is not the sender's. */
  static @Nullable Problem problem(JsonProcessingException failure) {
    String pointer =
        failure instanceof JsonMappingException mapping ? Pointers.of(mapping.getPath()) : "#";
    if (failure instanceof UnfitValue unfit) {
      return at(unfit.type(), pointer, unfit.getOriginalMessage());
    }
    if (failure instanceof UnrecognizedPropertyException unknown) {
      return unknownField(unknown, pointer);
    }
    if (failure instanceof ValueInstantiationException refused) {
      return refusedByConstructor(refused, pointer);
    }
    if (failure instanceof MismatchedInputException mismatch) {
      return isTrailing(mismatch)
          ? Problem.of(ProblemType.MALFORMED, "The body goes on after the end of its JSON value.")
          : at(ProblemType.INVALID_INPUT, pointer, expected(mismatch));
    }
    if (failure.getCause() instanceof JsonProcessingException cause && cause != failure) {
      return syntax(cause, pointer);
    }
    return failure instanceof JsonMappingException ? null : syntax(failure, pointer);
  }

  private static Problem syntax(JsonProcessingException failure, String pointer) {
    if (failure instanceof InputCoercionException) {
      return at(ProblemType.INVALID_INPUT, pointer, "must be a whole number of a smaller size");
    }
    Matcher duplicate = DUPLICATE.matcher(failure.getOriginalMessage());
    if (duplicate.lookingAt()) {
      return at(
          ProblemType.MALFORMED, Pointers.child(pointer, duplicate.group(1)), "is given twice");
    }
    JsonLocation where = failure.getLocation();
    String place =
        where == null
            ? ""
            : " (line %d, column %d)".formatted(where.getLineNr(), where.getColumnNr());
    return Problem.of(
        ProblemType.MALFORMED,
        "The body is not JSON, or nested too deeply, or holds a number or a name too long"
            + place
            + ".");
  }

  private static Problem unknownField(UnrecognizedPropertyException unknown, String pointer) {
    Collection<Object> known = unknown.getKnownPropertyIds();
    String fields =
        known == null
            ? ""
            : known.stream()
                .map(String::valueOf)
                .sorted()
                .limit(MOST_FIELDS)
                .collect(Collectors.joining(", ", "; known here: ", ""));
    return at(ProblemType.MALFORMED, pointer, "is not a known field" + fields);
  }

  /** A record that checks its own ranges says in its message what is wrong. */
  private static @Nullable Problem refusedByConstructor(
      ValueInstantiationException refused, String pointer) {
    Throwable cause = refused.getCause();
    return cause != null && cause.getClass() == IllegalArgumentException.class
        ? Problem.of(
            ProblemType.INVALID_INPUT,
            List.of(new Fault(String.valueOf(cause.getMessage()), pointer)))
        : null;
  }

  private static boolean isTrailing(MismatchedInputException mismatch) {
    return mismatch.getOriginalMessage().startsWith("Trailing token");
  }

  private static String expected(MismatchedInputException mismatch) {
    if (mismatch instanceof InvalidNullException) {
      return "must not hold null";
    }
    Class<?> type = mismatch.getTargetType();
    if (type == null) {
      return "is of the wrong type";
    }
    if (type.isEnum()) {
      return "must be one of " + String.join(", ", EnumIds.of(type).keySet());
    }
    boolean misspelt = mismatch instanceof InvalidFormatException;
    if (type == Boolean.class || type == boolean.class) {
      return "must be true or false";
    }
    if (type == UUID.class) {
      return "must be an identifier, such as 0190163d-8694-739b-aea5-966c26f8ad90";
    }
    if (isWhole(type)) {
      return "must be a whole number";
    }
    if (TemporalAccessor.class.isAssignableFrom(type)) {
      return "must be a date or time";
    }
    if (Collection.class.isAssignableFrom(type) || type.isArray()) {
      return "must be a list";
    }
    return misspelt ? "has a value that cannot be read" : "must be " + shape(type);
  }

  private static boolean isWhole(Class<?> type) {
    return type == Integer.class || type == int.class || type == Long.class || type == long.class;
  }

  private static String shape(Class<?> type) {
    return type.isRecord() || Map.class.isAssignableFrom(type) ? "an object" : "of another type";
  }

  private static Problem at(ProblemType type, String pointer, String predicate) {
    return Problem.of(
        type, List.of(new Fault(Pointers.spoken(pointer) + " " + predicate + ".", pointer)));
  }
}
