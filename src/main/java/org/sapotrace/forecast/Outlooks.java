package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import org.sapotrace.forecast.Outlook.Kind;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Tells what streams are heading for. */
@ApplicationScoped
@Transactional
public class Outlooks {

  private final ProductLines productLines;
  private final Towers towers;
  private final Flushes flushes;
  private final Washes washes;
  private final Trends trends;

  Outlooks(
      ProductLines productLines, Towers towers, Flushes flushes, Washes washes, Trends trends) {
    this.productLines = productLines;
    this.towers = towers;
    this.flushes = flushes;
    this.washes = washes;
    this.trends = trends;
  }

  /**
   * The outlook of a stream, by all that is on record.
   *
   * @param plan how it is washed, where it lies behind a water wash
   * @throws Refusal if there is no such stream
   */
  public Outlook of(String line, String slug, WashPlan plan) {
    return of(productLines.stream(line, slug), plan);
  }

  Outlook of(Stream stream, WashPlan plan) {
    Kind kind = kind(stream);
    return switch (kind) {
      case BREAKTHROUGH -> towers.of(stream);
      case FLUSH -> flushes.of(stream);
      case WATER_WASH -> washes.of(stream, plan);
      case STORAGE, TREND -> trends.of(kind, stream);
    };
  }

  /** What there is to foresee of a stream. */
  static Kind kind(Stream stream) {
    boolean isSoap = stream.measurand() == Measurand.SOAP;
    return switch (stream.samplingPoint()) {
      case AFTER_DRY_WASH -> isSoap ? Kind.BREAKTHROUGH : Kind.TREND;
      case FLUSH_METHANOL -> isSoap ? Kind.FLUSH : Kind.TREND;
      case AFTER_WASH -> isSoap ? Kind.WATER_WASH : Kind.TREND;
      case STORAGE -> Kind.STORAGE;
      case CRUDE, CHECK_STANDARD, BLANK, OTHER -> Kind.TREND;
    };
  }
}
