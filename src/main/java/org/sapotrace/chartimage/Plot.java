package org.sapotrace.chartimage;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.util.Locale;
import java.util.TimeZone;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.style.XYStyler;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;

/**
 * The series of one picture, drawn by XChart. It is used once and by one thread, because a chart of
 * XChart's can bear no more; and it works in pixels, so that no value however huge reaches its
 * search for ticks. Words are never given to it: it would draw their outlines.
 */
final class Plot {

  /** Room around the plot for marks on its very edge, px. */
  private final int margin;

  private final int width;
  private final int height;
  private final XYChart chart;

  /** Draws the mark of one result. */
  @FunctionalInterface
  interface Mark {
    void paint(Graphics2D g, double x, double y);
  }

  Plot(int width, int height, int margin) {
    this.margin = margin;
    this.width = width;
    this.height = height;
    chart = new XYChart(width + 2 * margin, height + 2 * margin);
    XYStyler style = chart.getStyler();
    style.setLegendVisible(false).setChartTitleVisible(false).setChartPadding(0);
    style.setPlotContentSize(1).setPlotBorderVisible(false);
    style.setChartBackgroundColor(Look.PAPER).setPlotBackgroundColor(Look.PAPER);
    style.setBaseFont(Typeface.size(10)).setLocale(Locale.ROOT);
    style.setPlotMargin(0).setAxisTitlesVisible(false).setAxisTicksVisible(false);
    style.setPlotGridLinesVisible(false).setPlotTicksMarksVisible(false);
    style.setAxisTickLabelsFont(Typeface.size(10)).setAxisTitleFont(Typeface.size(10));
    style.setTimezone(TimeZone.getTimeZone("UTC"));
    style.setXAxisMin((double) -margin).setXAxisMax((double) width + margin);
    style.setYAxisMin((double) -margin).setYAxisMax((double) height + margin);
  }

  /** A line through points given in px from the top left of the plot; a y of NaN breaks it. */
  void line(double[] xs, double[] ys, Color colour, BasicStroke stroke) {
    if (xs.length == 0) {
      return;
    }
    add(xs, ys).setMarker(SeriesMarkers.NONE).setLineColor(colour).setLineStyle(stroke);
  }

  /** A mark at each point. */
  void marks(double[] xs, double[] ys, Color colour, Mark mark) {
    XYSeries series = add(xs, ys);
    series.setXYSeriesRenderStyle(XYSeries.XYSeriesRenderStyle.Scatter);
    series.setMarkerColor(colour);
    series.setMarker(
        new Marker() {
          @Override
          public void paint(Graphics2D g, double x, double y, int size) {
            mark.paint(g, x, y);
          }
        });
  }

  private XYSeries add(double[] xs, double[] ys) {
    double[] up = new double[ys.length];
    for (int i = 0; i < up.length; i++) {
      up[i] = height - ys[i];
    }
    return chart.addSeries("s" + chart.getSeriesCollection().size(), xs, up);
  }

  /** Draws everything with the top left of the plot at a place of the picture. */
  void paint(Graphics2D g, int left, int top) {
    AffineTransform before = g.getTransform();
    g.translate(left - margin, top - margin);
    chart.paint(g, width + 2 * margin, height + 2 * margin);
    g.setTransform(before);
  }
}
