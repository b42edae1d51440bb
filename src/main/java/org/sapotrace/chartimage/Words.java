package org.sapotrace.chartimage;

import java.util.List;
import java.util.function.UnaryOperator;

/** The words above a plot. */
interface Words {

  /** What the picture shows, as a sentence. */
  String headline();

  /** What is on the vertical axis, such as {@code soap, mg/kg}. */
  String axis();

  /**
   * Where and when the results come from and how they are judged, piece by piece.
   *
   * @param brief whether in as few words as may be
   * @param name how the names of line and stream are written
   */
  List<String> circumstances(boolean brief, UnaryOperator<String> name);
}
