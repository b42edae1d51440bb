package org.sapotrace.monitoring.rest;

import jakarta.ws.rs.DefaultValue;
import java.util.Arrays;
import java.util.function.Supplier;
import org.jboss.resteasy.reactive.RestQuery;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.chartimage.Axis;
import org.sapotrace.chartimage.ChartImage;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;

/** How large a picture is asked for, in px, and what runs along its horizontal axis. */
@SuppressWarnings("NullAway.Init") // All have a default.
public final class PictureQuery {

  @RestQuery
  @DefaultValue("1000")
  Integer width;

  @RestQuery
  @DefaultValue("560")
  Integer height;

  @RestQuery
  @DefaultValue("time")
  String axis;

  private Axis axis() {
    return Arrays.stream(Axis.values())
        .filter(known -> known.id().equals(axis))
        .findFirst()
        .orElseThrow(() -> bad("axis must be time or sequence."));
  }

  byte[] draw(ChartImage image, ControlChart chart) {
    Axis chosen = axis();
    return draw(() -> image.render(chart, chosen, width, height));
  }

  /** A capability has no axis to choose. */
  byte[] draw(ChartImage image, CapabilityChart chart) {
    return draw(() -> image.render(chart, width, height));
  }

  private static byte[] draw(Supplier<byte[]> picture) {
    try {
      return picture.get();
    } catch (IllegalArgumentException impossibleSize) {
      throw bad(String.valueOf(impossibleSize.getMessage()));
    }
  }

  private static RuntimeException bad(String detail) {
    return Problem.of(ProblemType.BAD_PARAMETER, detail).asException();
  }
}
