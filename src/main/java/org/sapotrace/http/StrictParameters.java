package org.sapotrace.http;

import jakarta.ws.rs.ext.ParamConverter;
import jakarta.ws.rs.ext.ParamConverterProvider;
import jakarta.ws.rs.ext.Provider;
import java.lang.annotation.Annotation;
import java.lang.reflect.Type;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Reads the parameters of path and query to the letter, as bodies are read: enumerations by id,
 * moments with their offset, {@code true} and nothing like it. What cannot be read is a 400 that
 * names the parameter.
 */
@Provider
public final class StrictParameters implements ParamConverterProvider {

  private static final int UUID_LENGTH = 36;
  private static final Pattern WHOLE = Pattern.compile("-?[0-9]+");

  @Override
  public <T> @Nullable ParamConverter<T> getConverter(
      Class<T> type, Type genericType, Annotation @Nullable [] annotations) {
    if (type == Instant.class) {
      return converter(type, Times.MOMENT_EXPECTED, text -> type.cast(Times.moment(text)));
    }
    if (type == LocalDate.class) {
      return converter(type, Times.DAY_EXPECTED, text -> type.cast(Times.day(text)));
    }
    if (type == UUID.class) {
      return converter(type, "must be an identifier (UUID)", text -> type.cast(uuid(text)));
    }
    if (type == Integer.class) {
      return converter(type, "must be a whole number", text -> type.cast(whole(text)));
    }
    if (type == Boolean.class) {
      return converter(type, "must be true or false", text -> type.cast(truth(text)));
    }
    return type.isEnum() ? ofConstants(type, EnumIds.of(type)) : null;
  }

  private static <T> ParamConverter<T> ofConstants(Class<T> type, Map<String, T> constants) {
    return converter(
        type,
        "must be one of " + String.join(", ", constants.keySet()),
        text -> {
          T constant = constants.get(text);
          if (constant == null) {
            throw new IllegalArgumentException();
          }
          return constant;
        });
  }

  private static <T> ParamConverter<T> converter(
      Class<T> type, String expected, Function<String, T> reading) {
    return new ParamConverter<>() {
      @Override
      public @Nullable T fromString(@Nullable String text) {
        if (text == null) {
          return null;
        }
        try {
          return reading.apply(text);
        } catch (IllegalArgumentException | DateTimeException unreadable) {
          throw new UnreadableParameter(type, text, expected);
        }
      }

      @Override
      public String toString(T value) {
        return String.valueOf(value);
      }
    };
  }

  /** Without the plus sign and the digits of other scripts that Java would take. */
  private static Integer whole(String text) {
    if (!WHOLE.matcher(text).matches()) {
      throw new IllegalArgumentException();
    }
    return Integer.valueOf(text);
  }

  private static UUID uuid(String text) {
    if (text.length() != UUID_LENGTH) {
      throw new IllegalArgumentException();
    }
    return UUID.fromString(text);
  }

  private static Boolean truth(String text) {
    return switch (text) {
      case "true" -> true;
      case "false" -> false;
      default -> throw new IllegalArgumentException();
    };
  }
}
