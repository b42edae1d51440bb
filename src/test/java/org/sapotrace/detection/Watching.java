package org.sapotrace.detection;

/** A way to watch streams. */
@FunctionalInterface
interface Watching {

  /**
   * Watches a stream from now on.
   *
   * @param baseline its results so far, while nothing was wrong
   */
  Watch on(Charted stream, double[] baseline);
}
