package org.sapotrace.http;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonSetter;
import com.fasterxml.jackson.annotation.Nulls;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.cfg.CoercionAction;
import com.fasterxml.jackson.databind.cfg.CoercionInputShape;
import com.fasterxml.jackson.databind.module.SimpleModule;
import io.quarkus.jackson.ObjectMapperCustomizer;
import jakarta.inject.Singleton;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import org.sapotrace.refusal.Refusal;

/**
 * Reads JSON to the letter: what is misspelt, given twice, of another type, or not a finite number
 * is refused and never guessed at, since a guess would end in somebody's result.
 */
@Singleton
public final class StrictJson implements ObjectMapperCustomizer {

  /** After the customizers of the framework, which would add lenient readers of dates. */
  @Override
  public int priority() {
    return MINIMUM_PRIORITY;
  }

  @Override
  @SuppressWarnings("deprecation") // The builder that replaces configure() is out of reach here.
  public void customize(ObjectMapper mapper) {
    mapper
        .configure(JsonParser.Feature.STRICT_DUPLICATE_DETECTION, true)
        .configure(MapperFeature.ALLOW_COERCION_OF_SCALARS, false)
        .enable(
            DeserializationFeature.FAIL_ON_TRAILING_TOKENS,
            DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES,
            DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES,
            DeserializationFeature.FAIL_ON_NUMBERS_FOR_ENUMS)
        .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
        .disable(
            SerializationFeature.WRITE_DATES_AS_TIMESTAMPS,
            SerializationFeature.WRITE_DURATIONS_AS_TIMESTAMPS)
        .setDefaultSetterInfo(JsonSetter.Value.forContentNulls(Nulls.FAIL))
        .registerModule(values());
    mapper
        .coercionConfigDefaults()
        .setCoercion(CoercionInputShape.EmptyString, CoercionAction.Fail);
    mapper
        .configOverride(Refusal.Fault.class)
        .setInclude(
            JsonInclude.Value.construct(
                JsonInclude.Include.NON_NULL, JsonInclude.Include.NON_NULL));
  }

  private static SimpleModule values() {
    SimpleModule module =
        new SimpleModule("strict values") {
          private static final long serialVersionUID = 1L;

          @Override
          public void setupModule(SetupContext context) {
            super.setupModule(context);
            context.insertAnnotationIntrospector(new EnumIds());
          }
        };
    return module
        .addDeserializer(String.class, new StrictValue.Text())
        .addDeserializer(Double.class, new StrictValue.FiniteNumber(Double.class, null))
        .addDeserializer(double.class, new StrictValue.FiniteNumber(double.class, 0.0))
        .addDeserializer(BigDecimal.class, new StrictValue.Decimal())
        .addDeserializer(Instant.class, new StrictValue.Moment())
        .addDeserializer(LocalDate.class, new StrictValue.Day())
        .addSerializer(Instant.class, new PlainValue.Moment())
        .addSerializer(Double.class, new PlainValue.FiniteNumber(Double.class))
        .addSerializer(double.class, new PlainValue.FiniteNumber(double.class));
  }
}
