package org.sapotrace.demonstration;

import java.util.Objects;
import org.sapotrace.bench.Throughput;

/**
 * A dry-wash tower: what it lets through.
 *
 * @param leak the part of the soap that no bed takes up
 * @param halfway the throughput at which a bed lets half of the soap through, in bed volumes;
 *     infinite for one that outlasts the half-year
 */
record Tower(double leak, double halfway) {

  private static final double BED_LITRES = 500;
  private static final double LITRES_A_BATCH = 2700;

  /** How sharp the front is, in 1/halfway. */
  private static final double SHARPNESS = 25;

  boolean wearsOut() {
    return Double.isFinite(halfway);
  }

  /** What has gone through the bed after the batch of a day: it is new on day 0, and once more. */
  Throughput throughput(int day) {
    int packed = wearsOut() && day > Fault.TOWER.found() ? Fault.TOWER.found() + 1 : 0;
    double litres = LITRES_A_BATCH * (day - packed + 1);
    return new Throughput(litres, litres / BED_LITRES);
  }

  private double bedVolumes(int day) {
    return Objects.requireNonNull(throughput(day).bedVolumes());
  }

  /**
   * The part of the soap that is let through: the leak, and of the rest 1/(1 + exp(k (h - V))),
   * with V the bed volumes, h halfway and k the sharpness over h (Chu, J. Hazard. Mater. 177 (2010)
   * 1006).
   */
  double letThrough(int day) {
    double front = wearsOut() ? 1 / (1 + Math.exp(SHARPNESS * (1 - bedVolumes(day) / halfway))) : 0;
    return leak + (1 - leak) * front;
  }
}
