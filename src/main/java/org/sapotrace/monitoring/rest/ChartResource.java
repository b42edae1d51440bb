package org.sapotrace.monitoring.rest;

import jakarta.validation.constraints.Min;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.EntityTag;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import java.util.Arrays;
import java.util.Set;
import org.jboss.resteasy.reactive.RestQuery;
import org.sapotrace.chartimage.ChartImage;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.http.Preconditions;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.Slug;
import org.sapotrace.monitoring.Chart;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.ControlCharts;
import org.sapotrace.refusal.Refusal;

/** The charts of a stream, as data and as pictures. */
@Path("/api/v1/lines/{line}/streams/{stream}/charts")
class ChartResource {

  private static final String WIDTH = "1000";
  private static final String HEIGHT = "560";

  /** Kinds of chart that are known and not drawn yet. */
  private static final Set<String> LATER =
      Set.of("mean", "range", "standard-deviation", "capability");

  private final Charts charts;
  private final ChartJson json;

  ChartResource(Charts charts, ChartJson json) {
    this.charts = charts;
    this.json = json;
  }

  @GET
  @Path("/{kind}.json")
  @Produces(MediaType.APPLICATION_JSON)
  public Response json(
      @Slug String line,
      @Slug String stream,
      String kind,
      @BeanParam PointQuery points,
      @Context Request request) {
    ControlChart.Kind drawn = drawn(kind);
    Chart chart = charts.chart(line, stream, points.selection(), points.limitsRevision());
    byte[] body = json.write(chart, ControlCharts.of(drawn, chart));
    return Preconditions.answer(request, Preconditions.tag(body), () -> body);
  }

  @GET
  @Path("/{kind}.png")
  @Produces("image/png")
  public Response png(
      @Slug String line,
      @Slug String stream,
      String kind,
      @BeanParam PointQuery points,
      @RestQuery @DefaultValue(WIDTH) @Min(1) Integer width,
      @RestQuery @DefaultValue(HEIGHT) @Min(1) Integer height,
      @Context Request request) {
    return picture(ChartImage.PNG, line, stream, kind, points, width, height, request);
  }

  @GET
  @Path("/{kind}.svg")
  @Produces("image/svg+xml")
  public Response svg(
      @Slug String line,
      @Slug String stream,
      String kind,
      @BeanParam PointQuery points,
      @RestQuery @DefaultValue(WIDTH) @Min(1) Integer width,
      @RestQuery @DefaultValue(HEIGHT) @Min(1) Integer height,
      @Context Request request) {
    return picture(ChartImage.SVG, line, stream, kind, points, width, height, request);
  }

  @GET
  @Path("/{kind}.pdf")
  @Produces("application/pdf")
  public Response pdf(@Slug String line, @Slug String stream, String kind) {
    drawn(kind);
    throw Refusal.notYet("#", "Charts are not drawn as PDF yet; ask for svg or png.");
  }

  private Response picture(
      ChartImage image,
      String line,
      String stream,
      String kind,
      PointQuery points,
      int width,
      int height,
      Request request) {
    ControlChart.Kind drawn = drawn(kind);
    Chart chart = charts.chart(line, stream, points.selection(), points.limitsRevision());
    byte[] picture = draw(image, ControlCharts.of(drawn, chart), width, height);
    EntityTag tag = Preconditions.tag(picture);
    return Preconditions.answer(request, tag, () -> picture);
  }

  private static byte[] draw(ChartImage image, ControlChart chart, int width, int height) {
    try {
      return image.render(chart, width, height);
    } catch (IllegalArgumentException impossibleSize) {
      throw Problem.of(ProblemType.BAD_PARAMETER, String.valueOf(impossibleSize.getMessage()))
          .asException();
    }
  }

  private static ControlChart.Kind drawn(String kind) {
    if (LATER.contains(kind)) {
      throw Refusal.notYet(
          "#",
          "The %s chart is not drawn yet; ask for individuals, moving-range, ewma or cusum."
              .formatted(kind));
    }
    return Arrays.stream(ControlChart.Kind.values())
        .filter(drawn -> drawn.id().equals(kind))
        .findFirst()
        .orElseThrow(() -> Refusal.unknown("There is no chart of that kind."));
  }
}
