package org.sapotrace.monitoring.rest;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import java.util.Arrays;
import java.util.Set;
import org.sapotrace.chartimage.ChartImage;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.http.Preconditions;
import org.sapotrace.monitoring.CapabilityCharts;
import org.sapotrace.monitoring.CapabilityData;
import org.sapotrace.monitoring.Chart;
import org.sapotrace.monitoring.ChartData;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.ControlCharts;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Answers for the charts of a stream, as data and as pictures. */
@ApplicationScoped
class ChartAnswers {

  /** Kinds of chart that are known and not drawn yet. */
  private static final Set<String> LATER = Set.of("mean", "range", "standard-deviation");

  private static final String CAPABILITY = "capability";

  private final Charts charts;
  private final ObjectMapper json;

  ChartAnswers(Charts charts, ObjectMapper json) {
    this.charts = charts;
    this.json = json;
  }

  Response data(Stream stream, String kind, PointQuery points, Request request) {
    if (kind.equals(CAPABILITY)) {
      return capability(stream, points, request);
    }
    byte[] body = write(ChartData.of(drawn(kind), chart(stream, points)));
    return Preconditions.answer(request, Preconditions.tag(body), () -> body);
  }

  Response capability(Stream stream, PointQuery points, Request request) {
    byte[] body = write(CapabilityData.of(chart(stream, points)));
    return Preconditions.answer(request, Preconditions.tag(body), () -> body);
  }

  private byte[] write(Object data) {
    try {
      return json.writeValueAsBytes(data);
    } catch (JsonProcessingException defect) {
      throw new IllegalStateException("A chart cannot be written", defect);
    }
  }

  Response picture(
      ChartImage image,
      Stream stream,
      String kind,
      PointQuery points,
      PictureQuery size,
      Request request) {
    byte[] picture =
        kind.equals(CAPABILITY)
            ? size.draw(image, CapabilityCharts.of(chart(stream, points)))
            : size.draw(image, ControlCharts.of(drawn(kind), chart(stream, points)));
    return Preconditions.answer(request, Preconditions.tag(picture), () -> picture);
  }

  private Chart chart(Stream stream, PointQuery points) {
    return charts.chart(stream, points.selection(), points.limitsRevision());
  }

  private static ControlChart.Kind drawn(String kind) {
    if (LATER.contains(kind)) {
      throw Refusal.notYet(
          "#",
          "The %s chart is not drawn yet; ask for individuals, moving-range, ewma, cusum or capability."
              .formatted(kind));
    }
    return Arrays.stream(ControlChart.Kind.values())
        .filter(drawn -> drawn.id().equals(kind))
        .findFirst()
        .orElseThrow(() -> Refusal.unknown("There is no chart of that kind."));
  }
}
