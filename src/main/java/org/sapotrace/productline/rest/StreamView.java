package org.sapotrace.productline.rest;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.productline.ChartSettings;
import org.sapotrace.productline.DatedSpecification;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.Stream;

/** A stream as it is answered. */
record StreamView(
    @Nullable String line,
    String stream,
    String name,
    SamplingPoint samplingPoint,
    Measurand measurand,
    String unit,
    @Nullable SpecificationView specification,
    List<SpecificationView> specifications,
    @Nullable String inlet,
    @Nullable String outlet,
    ChartView chart) {

  /** Specification limits and the first day on which they hold; null for ever since. */
  record SpecificationView(
      @Nullable Double lower, @Nullable Double upper, @Nullable LocalDate from) {

    static SpecificationView of(DatedSpecification dated) {
      Specification limits = dated.limits();
      return new SpecificationView(
          limits == null ? null : limits.lower(),
          limits == null ? null : limits.upper(),
          dated.from());
    }
  }

  /** Chart settings, the defaults among them; null for what is off. */
  record ChartView(
      int subgroupSize,
      Dispersion dispersion,
      Scale scale,
      List<RunRule> rules,
      @Nullable Ewma ewma,
      @Nullable Cusum cusum) {

    static ChartView of(ChartSettings settings) {
      Detectors detectors = settings.detectors();
      return new ChartView(
          1,
          settings.dispersion(),
          settings.scale(),
          List.copyOf(detectors.rules()),
          detectors.ewma(),
          detectors.cusum());
    }
  }

  /**
   * The view of a stream.
   *
   * @param today the day whose specification is the present one
   */
  static StreamView of(Stream stream, LocalDate today) {
    return new StreamView(
        stream.line(),
        stream.slug(),
        stream.name(),
        stream.samplingPoint(),
        stream.measurand(),
        stream.unit(),
        stream.inForceOn(today).map(SpecificationView::of).orElse(null),
        stream.specifications().stream().map(SpecificationView::of).toList(),
        stream.inlet(),
        stream.outlet(),
        ChartView.of(stream.chart()));
  }
}
