package org.sapotrace.detection;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.DoubleStream;
import org.sapotrace.controlchart.Side;

/** The streams of a line that are charted. */
enum Charted {
  CRUDE("crude", SimulatedLine.Found::crude, Side.HIGH),
  WASHED("washed fuel", SimulatedLine.Found::washed, Side.HIGH),
  REMOVAL("removal", SimulatedLine.Found::removal, Side.LOW),
  CHECK_STANDARD("check standard", SimulatedLine.Found::check, Side.HIGH),
  BLANK("blank", SimulatedLine.Found::blank, Side.HIGH);

  private final String label;
  private final Function<SimulatedLine.Found, double[]> results;
  private final Side worse;

  Charted(String label, Function<SimulatedLine.Found, double[]> results, Side worse) {
    this.label = label;
    this.results = results;
    this.worse = worse;
  }

  String label() {
    return label;
  }

  /** The side to which a drift moves it. */
  Side worse() {
    return worse;
  }

  /** Its results batch by batch; NaN where it was not titrated. */
  double[] of(SimulatedLine.Found found) {
    return results.apply(found);
  }

  /** Its results without the batches in which it was not titrated. */
  double[] titrated(SimulatedLine.Found found) {
    return DoubleStream.of(of(found)).filter(x -> !Double.isNaN(x)).toArray();
  }

  /** The results from which its limits come: the last 45. */
  double[] baseline(SimulatedLine.Found found) {
    double[] titrated = titrated(found);
    return Arrays.copyOfRange(titrated, titrated.length - Detection.BASELINE, titrated.length);
  }

  /** Where a fault shows. */
  static Set<Charted> showing(Fault fault) {
    return switch (fault) {
      case WASH -> EnumSet.of(WASHED, REMOVAL);
      case FEED -> EnumSet.of(CRUDE, WASHED);
      case TITRANT -> EnumSet.of(CRUDE, WASHED, CHECK_STANDARD);
      case BLANK -> EnumSet.of(WASHED, REMOVAL, CHECK_STANDARD, BLANK);
    };
  }
}
