package org.sapotrace.monitoring.rest;

import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import org.sapotrace.chartimage.ChartImage;
import org.sapotrace.http.Slug;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** The charts of a titrant lot's strength, whose stream stands under no line. */
@Path("/api/v1/titrants/{lot}/strength/charts")
class StrengthChartResource {

  private final ProductLines productLines;
  private final ChartAnswers answers;

  StrengthChartResource(ProductLines productLines, ChartAnswers answers) {
    this.productLines = productLines;
    this.answers = answers;
  }

  @GET
  @Path("/{kind}.json")
  @Produces(MediaType.APPLICATION_JSON)
  public Response json(
      @Slug String lot, String kind, @BeanParam PointQuery points, @Context Request request) {
    return answers.data(strength(lot), kind, points, request);
  }

  @GET
  @Path("/{kind}.png")
  @Produces("image/png")
  public Response png(
      @Slug String lot,
      String kind,
      @BeanParam PointQuery points,
      @BeanParam PictureQuery size,
      @Context Request request) {
    return answers.picture(ChartImage.PNG, strength(lot), kind, points, size, request);
  }

  @GET
  @Path("/{kind}.svg")
  @Produces("image/svg+xml")
  public Response svg(
      @Slug String lot,
      String kind,
      @BeanParam PointQuery points,
      @BeanParam PictureQuery size,
      @Context Request request) {
    return answers.picture(ChartImage.SVG, strength(lot), kind, points, size, request);
  }

  @GET
  @Path("/{kind}.pdf")
  @Produces("application/pdf")
  public Response pdf(
      @Slug String lot,
      String kind,
      @BeanParam PointQuery points,
      @BeanParam PictureQuery size,
      @Context Request request) {
    return answers.picture(ChartImage.PDF, strength(lot), kind, points, size, request);
  }

  private Stream strength(String lot) {
    return productLines
        .underNoLine(lot)
        .orElseThrow(() -> Refusal.unknown("There is no titrant lot %s.".formatted(lot)));
  }
}
