package org.sapotrace.washmodel;

import java.util.List;

/** What is coming: how much is left until a limit is reached, or why nobody can say. */
public sealed interface Forecast {

  /** What it comes to, or why it comes to nothing, in words for people. */
  String reason();

  /**
   * The limit will be reached, or is reached already.
   *
   * @param model its formula in words
   */
  record Expected(String model, List<Parameter> parameters, Remaining remaining, String reason)
      implements Forecast {
    public Expected {
      parameters = List.copyOf(parameters);
    }
  }

  /**
   * As far as the evidence tells, the limit is not going to be reached.
   *
   * @param model its formula in words
   */
  record NoTrend(String model, List<Parameter> parameters, String reason) implements Forecast {
    public NoTrend {
      parameters = List.copyOf(parameters);
    }
  }

  /**
   * There is too little evidence for any answer.
   *
   * @param reason what is missing
   */
  record Insufficient(String reason) implements Forecast {}

  /**
   * A parameter as estimated.
   *
   * @param value finite
   * @param standardError in the same unit, finite and at least 0; 0 where the estimate is held at a
   *     bound that it would cross
   */
  record Parameter(String name, double value, double standardError, String unit) {

    /** Refuses what is not finite with {@link IllegalArgumentException}. */
    public Parameter {
      if (!(Double.isFinite(value) && standardError >= 0 && Double.isFinite(standardError))) {
        throw new IllegalArgumentException(
            "The %s is not to be estimated from these results.".formatted(name));
      }
    }
  }

  /**
   * What is left until the limit, with its 95 % interval.
   *
   * @param quantity what is left
   * @param value finite and at least 0; 0 where the limit is reached already
   * @param lower from 0 to {@code value}
   * @param upper at least {@code value}; infinite where the limit may as well never be reached
   * @param limit what is to be reached, in the unit of the results
   */
  record Remaining(
      String quantity, double value, double lower, double upper, String unit, double limit) {

    /** Of a limit that is reached already. */
    static Remaining none(String quantity, String unit, double limit) {
      return new Remaining(quantity, 0, 0, 0, unit, limit);
    }

    /** Refuses what is not ordered with {@link IllegalArgumentException}. */
    public Remaining {
      boolean isOrdered = lower >= 0 && value >= lower && upper >= value;
      if (!(isOrdered && Double.isFinite(value) && Double.isFinite(limit))) {
        throw new IllegalArgumentException("What is left needs a value inside its interval.");
      }
    }
  }
}
