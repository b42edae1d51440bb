package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import org.jspecify.annotations.Nullable;

/** Readers of single JSON values. */
final class StrictValue {

  private StrictValue() {}

  /** A text, and only a text, without characters that cannot be stored. */
  static final class Text extends StdScalarDeserializer<String> {
    private static final long serialVersionUID = 1L;

    Text() {
      super(String.class);
    }

    @Override
    public String deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      String text = textOf(parser, String.class, "must be a text");
      if (Plain.isStorable(text)) {
        return text;
      }
      throw new UnfitValue(
          parser,
          String.class,
          ProblemType.MALFORMED,
          "must not hold a NUL character or one half of a surrogate pair");
    }
  }

  /** A number that a double can hold; 1e999 is not one. */
  static final class FiniteNumber extends StdScalarDeserializer<Double> {
    private static final long serialVersionUID = 1L;
    private final @Nullable Double primitiveNull;

    FiniteNumber(Class<Double> type, @Nullable Double primitiveNull) {
      super(type);
      this.primitiveNull = primitiveNull;
    }

    @Override
    public Double deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      requireNumber(parser, Double.class);
      double value = parser.getDoubleValue();
      if (Double.isFinite(value)) {
        return value;
      }
      throw unfit(parser, Double.class, "must be a finite number");
    }

    @Override
    public @Nullable Double getNullValue(DeserializationContext context)
        throws MismatchedInputException {
      if (primitiveNull == null) {
        return null;
      }
      throw unfit(context.getParser(), Double.class, "is required and must be a number");
    }
  }

  /** A number as typed, within the range of a double. */
  static final class Decimal extends StdScalarDeserializer<BigDecimal> {
    private static final long serialVersionUID = 1L;
    private static final int MOST_PLACES = 1000;

    Decimal() {
      super(BigDecimal.class);
    }

    @Override
    public BigDecimal deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      requireNumber(parser, BigDecimal.class);
      BigDecimal value = parser.getDecimalValue();
      if (Math.abs((long) value.scale()) <= MOST_PLACES && Double.isFinite(value.doubleValue())) {
        return value;
      }
      throw unfit(parser, BigDecimal.class, "must be a finite number");
    }
  }

  /** A moment with its offset from UTC. */
  static final class Moment extends StdScalarDeserializer<Instant> {
    private static final long serialVersionUID = 1L;

    Moment() {
      super(Instant.class);
    }

    @Override
    public Instant deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      try {
        return Times.moment(textOf(parser, Instant.class, Times.MOMENT_EXPECTED));
      } catch (DateTimeParseException unreadable) {
        throw unfit(parser, Instant.class, Times.MOMENT_EXPECTED);
      }
    }
  }

  /** A calendar day. */
  static final class Day extends StdScalarDeserializer<LocalDate> {
    private static final long serialVersionUID = 1L;

    Day() {
      super(LocalDate.class);
    }

    @Override
    public LocalDate deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      try {
        return Times.day(textOf(parser, LocalDate.class, Times.DAY_EXPECTED));
      } catch (DateTimeParseException unreadable) {
        throw unfit(parser, LocalDate.class, Times.DAY_EXPECTED);
      }
    }
  }

  private static String textOf(JsonParser parser, Class<?> target, String expected)
      throws IOException {
    if (parser.hasToken(JsonToken.VALUE_STRING)) {
      return parser.getText();
    }
    throw unfit(parser, target, expected);
  }

  private static void requireNumber(JsonParser parser, Class<?> target)
      throws MismatchedInputException {
    if (!parser.currentToken().isNumeric()) {
      throw unfit(parser, target, "must be a number");
    }
  }

  private static UnfitValue unfit(JsonParser parser, Class<?> target, String message) {
    return new UnfitValue(parser, target, ProblemType.INVALID_INPUT, message);
  }
}
