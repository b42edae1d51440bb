package org.sapotrace.chartimage;

import java.awt.Rectangle;
import java.util.ArrayList;
import java.util.List;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.capability.Histogram;

/**
 * Where everything on a picture of a capability lies.
 *
 * @param font size of the type in the plot, px
 * @param plot the rectangle that the scales fill, px
 * @param histogram of the results
 * @param counts the vertical axis, from 0
 * @param values the horizontal axis
 * @param guides the lines across the distribution, from left to right
 * @param names of these lines
 * @param labels every text
 */
record CapabilityPage(
    double font,
    Rectangle plot,
    Histogram histogram,
    ValueScale counts,
    ValueScale values,
    List<Guide> guides,
    List<Flags.Flag> names,
    List<Label> labels) {

  /** Five lines at most are named, and in so many rows they always find room. */
  private static final int ROWS = 3;

  static CapabilityPage of(CapabilityChart chart, int width, int height) {
    double font = Page.typeSize(width, height);
    double margin = Math.round(1.1 * font);
    CapabilityWording wording = new CapabilityWording(chart);
    List<Label> labels = new ArrayList<>();
    Headings.Between between =
        new Headings(font, margin, width - 2 * margin)
            .around(wording, wording.explanations(), height, labels);
    Histogram histogram = chart.histogram();
    double highest = highest(chart, histogram);
    double most = Typeface.width(String.valueOf((int) highest), font);
    int left = (int) Math.ceil(margin + most + 0.7 * font);
    int across = (int) (width - margin - left);
    ValueScale values = values(chart, histogram, across);
    List<Guide> guides = Guide.of(chart);
    List<Flags.Wish> wishes =
        guides.stream()
            .map(g -> new Flags.Wish(values.along(values.clamp(g.value())), g.forms(values)))
            .toList();
    List<Flags.Flag> names = Flags.place(wishes, ROWS, across, font, 0.5 * font);
    int top = (int) Math.round(between.row() + font * (1.05 + Notes.height(Flags.rows(names))));
    int bottom = (int) Math.round(between.foot() - font * 3.4);
    Rectangle plot = new Rectangle(left, top, across, bottom - top);
    ValueScale counts = new ValueScale(0, 1.04 * highest, plot.height);
    CapabilityPage page =
        new CapabilityPage(font, plot, histogram, counts, values, guides, names, labels);
    page.write(wording.across());
    return page;
  }

  private static ValueScale values(CapabilityChart chart, Histogram histogram, double width) {
    Extent extent = new Extent();
    chart.values().forEach(extent::add);
    extent.add(histogram.start());
    extent.add(histogram.start() + histogram.counts().size() * histogram.width());
    List<Guide> guides = Guide.of(chart);
    guides.stream()
        .filter(guide -> !guide.specification())
        .forEach(guide -> extent.addUnlessFar(guide.value(), ValueScale.LEAST_SHARE));
    guides.stream()
        .filter(Guide::specification)
        .forEach(guide -> extent.addUnlessFar(guide.value(), ValueScale.LEAST_SHARE));
    return extent.padded(0.04, 0.02, width);
  }

  /** The highest bar, or the summit of the curve. */
  private static double highest(CapabilityChart chart, Histogram histogram) {
    ValueScale values = values(chart, histogram, 1);
    double highest = histogram.highest();
    for (int i = 0; i <= 500; i++) {
      highest = Math.max(highest, expected(chart, histogram, values.at(i / 500.0)));
    }
    return highest;
  }

  /** How many results a class about a value would hold by the distribution. */
  private static double expected(CapabilityChart chart, Histogram histogram, double value) {
    return chart.capability().n() * histogram.width() * chart.capability().shape().density(value);
  }

  /** The height of the curve at a value, from the head of the plot, px. */
  double curve(CapabilityChart chart, double value) {
    return counts.y(expected(chart, histogram, value));
  }

  double unit() {
    return font / 11;
  }

  /** The least distance of ticks of the vertical axis, so that none stands for half a result. */
  double countSpacing() {
    return Math.max(Page.tickSpacing(font), counts.height() / counts.top());
  }

  List<Abscissa.Tick> ticks() {
    double spacing = 5.5 * font;
    Digits digits = values.tickDigits(spacing);
    return values.ticks(spacing).stream()
        .map(tick -> new Abscissa.Tick(values.along(tick), digits.write(tick), ""))
        .toList();
  }

  private void write(String across) {
    labels.addAll(AxisLabels.beside(plot, counts, countSpacing(), font));
    int foot = (int) plot.getMaxY();
    labels.addAll(AxisLabels.under(plot.x, foot, ticks(), font));
    double middle = plot.getCenterX() - Typeface.width(across, font) / 2;
    labels.add(new Label(across, middle, foot + 2.75 * font, font, Look.MUTED));
    for (int i = 0; i < names.size(); i++) {
      Notes.add(labels, names.get(i), plot.x, plot.y, font, guides.get(i).colour());
    }
  }
}
