package org.sapotrace.notice;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.UUID;
import org.sapotrace.productline.Stream;

/** The addresses under which people find what a notice is about. */
@ApplicationScoped
class Addresses {

  /** So many results a picture shows that is meant for one look. */
  private static final int LATEST = 60;

  private final NoticeSettings settings;

  Addresses(NoticeSettings settings) {
    this.settings = settings;
  }

  /** Of a stream; of the strength of the lot where it stands under no line. */
  String of(Stream stream) {
    return stream.line() == null
        ? of("titrants/%s/strength".formatted(stream.slug()))
        : of("lines/%s/streams/%s".formatted(stream.line(), stream.slug()));
  }

  String ofForecast(Stream stream) {
    return of(stream) + "/forecast";
  }

  String ofSignal(UUID signal) {
    return of("signals/" + signal);
  }

  String ofResult(UUID result) {
    return of("results/" + result);
  }

  String ofLimits(Stream stream, int revision) {
    return "%s/limits/%d".formatted(of(stream), revision);
  }

  /** Of the picture of a chart. */
  String ofChart(Stream stream, String kind) {
    return "%s/charts/%s.png?last=%d".formatted(of(stream), kind, LATEST);
  }

  private String of(String path) {
    return settings.publicUrl() + "/api/v1/" + path;
  }
}
