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
 * The text can be stored and shows what it holds: not blank, without space around it, no longer
 * than {@link #max()} characters, without control characters, half surrogate pairs, and characters
 * that are not seen or turn the writing around. Null passes.
 */
@Documented
@Constraint(validatedBy = SafeText.Check.class)
@Target({
  ElementType.FIELD,
  ElementType.PARAMETER,
  ElementType.RECORD_COMPONENT,
  ElementType.TYPE_USE
})
@Retention(RetentionPolicy.RUNTIME)
public @interface SafeText {
  String message() default
      "must be 1 to {max} characters, without space around them and without control or invisible"
          + " characters";

  /** The most characters (Unicode code points), inclusive. */
  int max();

  /** Whether line breaks and tabs are let through, as in notes. */
  boolean multiline() default false;

  Class<?>[] groups() default {};

  Class<? extends Payload>[] payload() default {};

  /** Tells whether a text is safe. */
  final class Check implements ConstraintValidator<SafeText, String> {

    private int max;
    private boolean multiline;

    @Override
    public void initialize(SafeText constraint) {
      this.max = constraint.max();
      this.multiline = constraint.multiline();
    }

    @Override
    public boolean isValid(@Nullable String text, ConstraintValidatorContext context) {
      return text == null || isSafe(text, max, multiline);
    }

    /** Tells it of a text that comes from elsewhere than a body of JSON. */
    public static boolean isSafe(String text, int max, boolean multiline) {
      return !text.isBlank()
          && text.equals(text.strip())
          && text.codePointCount(0, text.length()) <= max
          && Plain.isReadable(text, multiline);
    }
  }
}
