package org.sapotrace.http;

import jakarta.validation.Constraint;
import jakarta.validation.Payload;
import jakarta.validation.ReportAsSingleViolation;
import jakarta.validation.constraints.Pattern;
import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** A name that can stand in an address: {@code [a-z0-9][a-z0-9-]{0,62}}. Null passes. */
@Documented
@Constraint(validatedBy = {})
@Pattern(regexp = "[a-z0-9][a-z0-9-]{0,62}")
@ReportAsSingleViolation
@Target({
  ElementType.FIELD,
  ElementType.PARAMETER,
  ElementType.RECORD_COMPONENT,
  ElementType.TYPE_USE
})
@Retention(RetentionPolicy.RUNTIME)
public @interface Slug {
  String message() default
      "must be 1 to 63 lower-case letters a to z, digits and hyphens, and not begin with a hyphen";

  Class<?>[] groups() default {};

  Class<? extends Payload>[] payload() default {};
}
