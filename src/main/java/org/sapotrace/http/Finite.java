package org.sapotrace.http;

import jakarta.validation.Constraint;
import jakarta.validation.ConstraintValidator;
import jakarta.validation.ConstraintValidatorContext;
import jakarta.validation.Payload;
import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.jspecify.annotations.Nullable;

/**
 * The number is neither NaN nor infinite; null passes. Numbers in JSON are held to this anyway:
 * this is for parameters, and for numbers that come otherwise.
 */
@Documented
@Constraint(validatedBy = Finite.Check.class)
@Target({
  ElementType.FIELD,
  ElementType.PARAMETER,
  ElementType.RECORD_COMPONENT,
  ElementType.TYPE_USE
})
@Retention(RetentionPolicy.RUNTIME)
public @interface Finite {
  String message() default "must be a finite number";

  Class<?>[] groups() default {};

  Class<? extends Payload>[] payload() default {};

  /** Tells whether a number is finite. */
  final class Check implements ConstraintValidator<Finite, Double> {
    @Override
    public boolean isValid(@Nullable Double value, ConstraintValidatorContext context) {
      return value == null || Double.isFinite(value);
    }
  }
}
