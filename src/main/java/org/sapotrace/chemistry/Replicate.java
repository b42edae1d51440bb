package org.sapotrace.chemistry;

import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Volume;

/**
 * One titration of a sample to one or two end points.
 *
 * @param titrant V, the titrant used up to the only or last end point
 * @param portion the sample titrated
 * @param freeAlkali A, the titrant used up to the first end point, from the same start and no more
 *     than V; 0 mL where there was no free alkali to begin with, null where it was not looked for
 */
public record Replicate(Volume titrant, TestPortion portion, @Nullable Volume freeAlkali) {

  /** Refuses end points in the wrong order with {@link IllegalArgumentException}. */
  public Replicate {
    if (freeAlkali != null && freeAlkali.millilitres() > titrant.millilitres()) {
      throw new IllegalArgumentException(
          "The first end point lies beyond the last one: give both as counted from the start.");
    }
  }

  /** A titration to a single end point. */
  public Replicate(Volume titrant, TestPortion portion) {
    this(titrant, portion, null);
  }

  /** A, in mL: 0 where it was not looked for, as free alkali then counts as soap. */
  double freeAlkaliMl() {
    return freeAlkali == null ? 0 : freeAlkali.millilitres();
  }
}
