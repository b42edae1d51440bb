package org.sapotrace.monitoring.rest;

import jakarta.ws.rs.DefaultValue;
import org.jboss.resteasy.reactive.RestQuery;
import org.sapotrace.chartimage.ChartImage;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;

/** How large a picture is asked for, in px. */
@SuppressWarnings("NullAway.Init") // Both have a default.
public final class PictureQuery {

  @RestQuery
  @DefaultValue("1000")
  Integer width;

  @RestQuery
  @DefaultValue("560")
  Integer height;

  byte[] draw(ChartImage image, ControlChart chart) {
    try {
      return image.render(chart, width, height);
    } catch (IllegalArgumentException impossibleSize) {
      throw Problem.of(ProblemType.BAD_PARAMETER, String.valueOf(impossibleSize.getMessage()))
          .asException();
    }
  }
}
