package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.List;

/** Lays strips on pages. What stays together is broken only where it is higher than a page. */
final class PageBreaks {

  private final double room;
  private final List<List<Strip>> pages = new ArrayList<>();
  private double used;

  private PageBreaks(double room) {
    this.room = room;
    begin();
  }

  /**
   * The strips of each page, at least one page.
   *
   * @param room for strips on a page, pt
   */
  static List<List<Strip>> of(List<Strip> strips, double room) {
    PageBreaks breaks = new PageBreaks(room);
    List<Strip> together = new ArrayList<>();
    for (Strip strip : strips) {
      together.add(strip);
      if (!strip.staysWithNext()) {
        breaks.place(together);
        together.clear();
      }
    }
    breaks.place(together);
    return breaks.pages;
  }

  private void begin() {
    pages.add(new ArrayList<>());
    used = 0;
  }

  private List<Strip> page() {
    return pages.get(pages.size() - 1);
  }

  private void place(List<Strip> together) {
    if (used + together.stream().mapToDouble(Strip::height).sum() > room && !page().isEmpty()) {
      begin();
    }
    together.forEach(this::place);
  }

  private void place(Strip strip) {
    if (used + strip.height() > room && !page().isEmpty()) {
      begin();
    }
    if (page().isEmpty() && strip.ink() == null) {
      return;
    }
    if (page().isEmpty() && strip.heading() != null) {
      add(strip.heading());
    }
    add(strip);
  }

  private void add(Strip strip) {
    page().add(strip);
    used += strip.height();
  }
}
