package org.sapotrace.chartimage;

/** Cuts a line with corners into dashes that go on around them. */
final class Dashes {

  private final Segments dashes;
  private final double ink;
  private final double period;
  private double x = Double.NaN;
  private double y = Double.NaN;

  /** How far into the present dash and the gap behind it the line has come, px. */
  private double phase;

  Dashes(Segments dashes, double ink, double gap) {
    this.dashes = dashes;
    this.ink = ink;
    period = ink + gap;
  }

  /** Draws straight on to a place; the first place is where the line begins. */
  void to(double toX, double toY) {
    double length = Math.hypot(toX - x, toY - y);
    double done = 0;
    while (done < length) {
      boolean inked = phase < ink;
      double step = Math.min(length - done, (inked ? ink : period) - phase);
      if (inked) {
        double from = done / length;
        double to = (done + step) / length;
        dashes.add(
            x + from * (toX - x), y + from * (toY - y), x + to * (toX - x), y + to * (toY - y));
      }
      done += step;
      phase = phase + step >= period - 1e-9 ? 0 : phase + step;
    }
    x = toX;
    y = toY;
  }
}
