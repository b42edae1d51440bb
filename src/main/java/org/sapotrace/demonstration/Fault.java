package org.sapotrace.demonstration;

/**
 * What goes wrong at the plant, and when: the truth that the service is to find.
 *
 * <p>A fault is there from its first day to the day on whose evening it is found, inclusive.
 */
enum Fault {
  /** Solvent that takes titrant itself, in mL on each titration. */
  BLANK(62, 76, 0.05),
  /** A bottle left open, from which water evaporates: by so much of it its strength has risen. */
  TITRANT(90, 113, 0.08),
  /** A wash that leaves more and more: by so much of it more than it should. */
  WASH(120, 140, 0.45),
  /**
   * A tower whose bed is used up: on its first day it lets through a twentieth more than when it
   * was new. {@link Tower} has its course.
   */
  TOWER(120, 157, 0),
  /** An analyst who waits too long for the colour, and reads so many mL too many. */
  ANALYST(150, 170, 0.08);

  private final int first;
  private final int found;
  private final double size;

  Fault(int first, int found, double size) {
    this.first = first;
    this.found = found;
    this.size = size;
  }

  /** The first day on which it is there. */
  int first() {
    return first;
  }

  /** The day on whose evening it is found, and ends. */
  int found() {
    return found;
  }

  boolean isThere(int day) {
    return first <= day && day <= found;
  }

  /** Its full size while it is there. */
  double step(int day) {
    return isThere(day) ? size : 0;
  }

  /**
   * As much of its size as it has grown to: evenly from its first day, in full when it is found.
   */
  double ramp(int day) {
    return isThere(day) ? size * (day - first + 1) / (found - first + 1) : 0;
  }
}
