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

/** The charts of a stream, as data and as pictures. */
@Path("/api/v1/lines/{line}/streams/{stream}/charts")
class ChartResource {

  private final ProductLines productLines;
  private final ChartAnswers answers;

  ChartResource(ProductLines productLines, ChartAnswers answers) {
    this.productLines = productLines;
    this.answers = answers;
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
    return answers.data(productLines.stream(line, stream), kind, points, request);
  }

  @GET
  @Path("/capability.json")
  @Produces(MediaType.APPLICATION_JSON)
  public Response capability(
      @Slug String line,
      @Slug String stream,
      @BeanParam PointQuery points,
      @Context Request request) {
    return answers.capability(productLines.stream(line, stream), points, request);
  }

  @GET
  @Path("/{kind}.png")
  @Produces("image/png")
  public Response png(
      @Slug String line,
      @Slug String stream,
      String kind,
      @BeanParam PointQuery points,
      @BeanParam PictureQuery size,
      @Context Request request) {
    return answers.picture(
        ChartImage.PNG, productLines.stream(line, stream), kind, points, size, request);
  }

  @GET
  @Path("/{kind}.svg")
  @Produces("image/svg+xml")
  public Response svg(
      @Slug String line,
      @Slug String stream,
      String kind,
      @BeanParam PointQuery points,
      @BeanParam PictureQuery size,
      @Context Request request) {
    return answers.picture(
        ChartImage.SVG, productLines.stream(line, stream), kind, points, size, request);
  }

  @GET
  @Path("/{kind}.pdf")
  @Produces("application/pdf")
  public Response pdf(
      @Slug String line,
      @Slug String stream,
      String kind,
      @BeanParam PointQuery points,
      @BeanParam PictureQuery size,
      @Context Request request) {
    return answers.picture(
        ChartImage.PDF, productLines.stream(line, stream), kind, points, size, request);
  }
}
