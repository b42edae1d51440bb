package org.sapotrace.chemistry;

import java.util.SplittableRandom;

/**
 * What can go wrong in a titration. An error is counted in multiples of its own standard
 * uncertainty, so that each source has mean 0 and standard deviation 1.
 */
enum ErrorSource {
  /** The difference of two readings of the scale, each rectangular. */
  READING("titrant reading", Scope.EACH, Shape.TRIANGULAR),
  END_POINT("end point", Scope.EACH, Shape.NORMAL),
  FIRST_END_POINT("first end point", Scope.EACH, Shape.NORMAL),
  /**
   * Once and not twice: blank and sample are read on the same scale, so what counts is the error of
   * the net volume.
   */
  TOLERANCE("glassware tolerance", Scope.ALL, Shape.TRIANGULAR),
  BLANK_READING("blank reading", Scope.ALL, Shape.TRIANGULAR),
  BLANK_END_POINT("blank end point", Scope.ALL, Shape.NORMAL),
  /** Of blanks titrated in a series, in place of reading and end point of one. */
  BLANK_SCATTER("scatter of the blanks", Scope.ALL, Shape.NORMAL),
  /** Alike for all replicates and the blank, which are titrated one after the other. */
  TEMPERATURE("titrant temperature", Scope.ALL, Shape.RECTANGULAR),
  /** What a bench's own replicates scatter by beyond what else errs anew in each. */
  REPEATABILITY("repeatability beyond reading, end point and mass", Scope.EACH, Shape.NORMAL),
  /** Whatever made replicates differ by more than all that is known can. */
  DISAGREEMENT("disagreement of the replicates", Scope.EACH, Shape.NORMAL),
  NORMALITY("titrant normality", Scope.ALL, Shape.NORMAL),
  SAMPLE_MASS("sample mass", Scope.EACH, Shape.NORMAL),
  SAMPLE_DENSITY("sample density", Scope.ALL, Shape.NORMAL),
  SAMPLE_VOLUME("sample volume", Scope.ALL, Shape.TRIANGULAR),
  STANDARD_MASS("mass of the standard", Scope.EACH, Shape.NORMAL),
  STANDARD_PURITY("purity of the standard", Scope.ALL, Shape.RECTANGULAR),
  /**
   * Alike for all aliquots, which mostly come from one solution; where several were made, that errs
   * to the safe side.
   */
  SOLUTION_MASS("mass in the solution", Scope.ALL, Shape.NORMAL),
  FLASK("volumetric flask", Scope.ALL, Shape.TRIANGULAR),
  PIPETTE("pipette", Scope.ALL, Shape.TRIANGULAR);

  /** Whether an error is made anew in each replicate or once for all of them. */
  enum Scope {
    EACH,
    ALL
  }

  /** How an error is distributed, with mean 0 and standard deviation 1. */
  private enum Shape {
    NORMAL,
    RECTANGULAR,
    TRIANGULAR
  }

  private final String words;
  private final Scope scope;
  private final Shape shape;

  ErrorSource(String words, Scope scope, Shape shape) {
    this.words = words;
    this.scope = scope;
    this.shape = shape;
  }

  /** The source in plain words, such as {@code end point}. */
  String words() {
    return words;
  }

  Scope scope() {
    return scope;
  }

  boolean isRectangular() {
    return shape == Shape.RECTANGULAR;
  }

  /**
   * Draws an error.
   *
   * @param degreesOfFreedom of the standard uncertainty; where they are finite, a normal error is
   *     drawn from Student's t (JCGM 101:2008, 6.4.9)
   */
  double draw(SplittableRandom random, double degreesOfFreedom) {
    return switch (shape) {
      case NORMAL ->
          Double.isInfinite(degreesOfFreedom)
              ? random.nextGaussian()
              : studentT(random, degreesOfFreedom);
      case RECTANGULAR -> Math.sqrt(3) * (2 * random.nextDouble() - 1);
      case TRIANGULAR -> {
        double first = random.nextDouble();
        yield Math.sqrt(6) * (first - random.nextDouble());
      }
    };
  }

  /**
   * The polar method: with (u, v) uniform in the unit disc and w = u^2 + v^2, u sqrt(nu (w^(-2/nu)
   * - 1) / w) has Student's t distribution. R. W. Bailey, Mathematics of Computation 62 (1994) 779,
   * doi:10.1090/S0025-5718-1994-1219702-8.
   */
  private static double studentT(SplittableRandom random, double nu) {
    while (true) {
      double u = 2 * random.nextDouble() - 1;
      double v = 2 * random.nextDouble() - 1;
      double w = u * u + v * v;
      if (w > 0 && w <= 1) {
        return u * Math.sqrt(nu * (Math.pow(w, -2 / nu) - 1) / w);
      }
    }
  }
}
