package org.sapotrace.detection;

/**
 * How a fault grows.
 *
 * @param fault what goes wrong
 * @param batches after how many the mean of the washed fuel has come to the limit, at an even pace
 *     from the first batch on
 */
record Drift(Fault fault, int batches) {

  /** How far the washed fuel's mean has risen at a batch, from 0 to the limit at 1 and on. */
  double at(int batch) {
    return (double) batch / batches;
  }
}
