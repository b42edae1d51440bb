package org.sapotrace.demonstration;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.sapotrace.controlchart.Side;
import org.sapotrace.monitoring.NewFinding;
import org.sapotrace.monitoring.Signal;

/**
 * What the signals of a stream turned out to be.
 *
 * @param stream its slug
 * @param side to which the fault moves it
 */
record Explanation(Product line, String stream, Side side, NewFinding finding) {

  private static final Duration DATED_WITHIN = Duration.ofDays(5);

  /** The streams that show a fault, each with what is written down for its signals. */
  static List<Explanation> of(Fault fault) {
    NewFinding finding = finding(fault);
    Side side = fault == Fault.TITRANT ? Side.LOW : Side.HIGH;
    List<Explanation> all = new ArrayList<>();
    for (Product line : Product.values()) {
      for (Place place : Place.values()) {
        if (place.isOn(line) && shows(fault, line, place)) {
          all.add(new Explanation(line, place.slug(), side, finding));
          if (place.inlet() != null && showsInRemoval(fault, place)) {
            all.add(new Explanation(line, place.removal(), Side.LOW, finding));
          }
        }
      }
    }
    return all;
  }

  /**
   * Whether it is more than what scatters there: fuel spreads by more than a bottle that is 8 %
   * off, so that low figures of fuel are chance.
   */
  private static boolean shows(Fault fault, Product line, Place place) {
    boolean isBehindTower = place == Place.POLISHED || place == Place.STORED;
    return switch (fault) {
      case BLANK -> place != Place.CRUDE && place != Place.FLUSH;
      case TITRANT, ANALYST -> place == Place.CHECK;
      case WASH -> line == Product.SODIUM && (place == Place.WASHED || isBehindTower);
      case TOWER -> line.tower().wearsOut() && isBehindTower;
    };
  }

  /** A wash that fades leaves the tower behind it as it was. */
  private static boolean showsInRemoval(Fault fault, Place place) {
    return fault != Fault.WASH || place == Place.WASHED;
  }

  /**
   * Whether it is about a signal: what began well before the fault, by the signal's own dating, is
   * chance.
   *
   * @param began when the fault did
   */
  boolean explains(Signal signal, Instant began) {
    return signal.side() == side
        && !signal.openedAt().isBefore(began)
        && !signal.start().at().isBefore(began.minus(DATED_WITHIN));
  }

  private static NewFinding finding(Fault fault) {
    return switch (fault) {
      case BLANK ->
          finding(
              "The solvent took titrant itself.",
              "Drum taken out of use: blanks were 0.05 mL up, and everything read high by that.");
      case TITRANT ->
          finding(
              "Bottle hcl-02 had stood open and lost water.",
              "New bottle hcl-03. Results of hcl-02 read low and are to be restated.");
      case WASH ->
          finding("Spray nozzles of the wash were clogged.", "Nozzles cleaned, and on the list.");
      case TOWER -> finding("The bed of the tower was used up.", "Tower flushed and packed anew.");
      case ANALYST ->
          finding(
              "tw read the end point 0.08 mL late.",
              "Found by comparing the analysts; end point shown and practised.");
    };
  }

  private static NewFinding finding(String cause, String action) {
    return new NewFinding(cause, action, "mh", List.of());
  }
}
