package org.sapotrace.chartimage;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.sapotrace.controlchart.ControlChart;

/**
 * Time in UTC along the horizontal axis.
 *
 * @param first the first instant, seconds since 1970; NaN while there is nothing to show
 * @param last the last instant, seconds since 1970, not before the first
 * @param width of the plot, px
 * @param margin kept free at either end, px
 */
record TimeScale(double first, double last, double width, double margin) implements Abscissa {

  private static final double DAY = 86_400;
  private static final double MONTH = 30 * DAY;

  /** Steps of a clock or a calendar of days, s. */
  private static final int[] SECONDS = {
    1, 5, 15, 60, 300, 900, 1800, 3600, 7200, 10_800, 21_600, 43_200, 86_400, 172_800, 604_800,
    1_209_600
  };

  /** Steps of a calendar of months. */
  private static final int[] MONTHS = {1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200, 12_000};

  /** Monday, 5 January 1970: where weeks are counted from. */
  private static final long MONDAY = 4 * 86_400L;

  /** A scale on which all results fit, those that were withdrawn too. */
  static TimeScale of(ControlChart chart, double width, double margin) {
    DoubleSummaryStatistics seconds =
        Stream.concat(
                chart.points().stream().map(ControlChart.Point::at),
                chart.withdrawn().stream().map(ControlChart.Withdrawn::at))
            .mapToDouble(TimeScale::seconds)
            .summaryStatistics();
    return seconds.getCount() == 0
        ? new TimeScale(Double.NaN, Double.NaN, width, margin)
        : new TimeScale(seconds.getMin(), seconds.getMax(), width, margin);
  }

  private static double seconds(Instant at) {
    return at.getEpochSecond() + at.getNano() / 1e9;
  }

  @Override
  public boolean isEmpty() {
    return Double.isNaN(first);
  }

  @Override
  public double x(ControlChart.Point point) {
    return x(seconds(point.at()));
  }

  @Override
  public double x(Instant at) {
    if (last <= first) {
      double side = Math.signum(seconds(at) - first);
      return width / 2 + side * width / 2;
    }
    return Math.max(0, Math.min(width, x(seconds(at))));
  }

  private double x(double seconds) {
    if (last <= first) {
      return width / 2;
    }
    return margin + (seconds - first) / (last - first) * (width - 2 * margin);
  }

  @Override
  public List<Tick> ticks(double spacing) {
    if (isEmpty()) {
      return List.of();
    }
    if (last <= first) {
      return List.of(tick(Math.round(first), "HH:mm", "d MMM uuuu"));
    }
    double least = secondsPerPixel() * spacing;
    boolean hours = last - first < 2 * DAY;
    for (int step : SECONDS) {
      if (step >= least && (hours || step >= DAY)) {
        return clockTicks(step);
      }
    }
    for (int step : MONTHS) {
      if (step * MONTH >= least) {
        return monthTicks(step);
      }
    }
    return List.of();
  }

  private double secondsPerPixel() {
    return (last - first) / Math.max(1, width - 2 * margin);
  }

  private double earliest() {
    return first - margin * secondsPerPixel();
  }

  private double latest() {
    return last + margin * secondsPerPixel();
  }

  private List<Tick> clockTicks(int step) {
    long origin = step >= 7 * DAY ? MONDAY : 0;
    String pattern = step < 60 ? "HH:mm:ss" : step < DAY ? "HH:mm" : "d MMM";
    String context = step < DAY ? "d MMM uuuu" : "uuuu";
    List<Tick> ticks = new ArrayList<>();
    long from = origin - Math.floorDiv(origin - (long) Math.ceil(earliest()), step) * step;
    for (long at = from; at <= latest() && ticks.size() < 100; at += step) {
      ticks.add(tick(at, pattern, context));
    }
    return ticks.isEmpty() ? List.of(tick(Math.round(first), pattern, context)) : ticks;
  }

  private List<Tick> monthTicks(int step) {
    List<Tick> ticks = new ArrayList<>();
    try {
      LocalDateTime start = LocalDateTime.ofEpochSecond((long) earliest(), 0, ZoneOffset.UTC);
      long month = Math.floorDiv(start.getYear() * 12L + start.getMonthValue() - 1, step) * step;
      for (; ticks.size() < 100; month += step) {
        int year = Math.toIntExact(Math.floorDiv(month, 12L));
        LocalDateTime at = LocalDateTime.of(year, (int) Math.floorMod(month, 12L) + 1, 1, 0, 0);
        long seconds = at.toEpochSecond(ZoneOffset.UTC);
        if (seconds > latest()) {
          break;
        }
        if (seconds >= earliest()) {
          ticks.add(tick(seconds, step < 12 ? "MMM" : "uuuu", step < 12 ? "uuuu" : ""));
        }
      }
    } catch (DateTimeException beyondTheCalendar) {
      return ticks;
    }
    return ticks;
  }

  private Tick tick(long seconds, String pattern, String context) {
    LocalDateTime at = LocalDateTime.ofEpochSecond(seconds, 0, ZoneOffset.UTC);
    return new Tick(x((double) seconds), write(at, pattern), write(at, context));
  }

  private static String write(LocalDateTime at, String pattern) {
    return at.format(DateTimeFormatter.ofPattern(pattern, Locale.ENGLISH));
  }
}
