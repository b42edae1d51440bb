package org.sapotrace.http;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;

/** A value in a body that is refused while it is read; its message is written for the sender. */
final class UnfitValue extends MismatchedInputException {

  private static final long serialVersionUID = 1L;

  private final ProblemType type;

  UnfitValue(JsonParser parser, Class<?> target, ProblemType type, String message) {
    super(parser, message, target);
    this.type = type;
  }

  ProblemType type() {
    return type;
  }
}
