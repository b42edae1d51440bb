package org.sapotrace.chartimage;

import java.awt.Graphics2D;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/** What stands on a picture, whatever form it is given. */
interface Painting {

  /** Paints everything onto any surface, paper included. */
  void paint(Graphics2D g, int width, int height);

  /** What it shows, as a sentence. */
  String title();

  /** The sentences that say what it shows to whoever cannot see it. */
  String description();

  /** The latest time of what it shows; null where it shows nothing yet. */
  @Nullable Instant asOf();
}
