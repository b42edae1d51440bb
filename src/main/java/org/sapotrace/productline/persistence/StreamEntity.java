package org.sapotrace.productline.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.chemistry.SamplingPoint;
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

@Entity
@Table(name = "stream")
@NullUnmarked
class StreamEntity {

  @Id UUID id;
  String line;
  String slug;
  String name;

  @Column(name = "sampling_point")
  String samplingPoint;

  String measurand;
  String unit;
  String inlet;
  String outlet;
  String dispersion;
  String scale;
  String[] rules;

  @Column(name = "ewma_lambda")
  Double ewmaLambda;

  @Column(name = "ewma_width")
  Double ewmaWidth;

  @Column(name = "cusum_reference")
  Double cusumReference;

  @Column(name = "cusum_decision")
  Double cusumDecision;

  @Column(name = "cusum_head_start")
  Double cusumHeadStart;

  int version;

  @Column(name = "last_identifier")
  UUID lastIdentifier;

  void take(Stream stream) {
    id = stream.id();
    line = stream.line();
    slug = stream.slug();
    name = stream.name();
    samplingPoint = stream.samplingPoint().id();
    measurand = stream.measurand().id();
    unit = stream.unit();
    inlet = stream.inlet();
    outlet = stream.outlet();
    dispersion = stream.chart().dispersion().id();
    scale = stream.chart().scale().id();
    take(stream.chart().detectors());
    version = stream.version();
  }

  private void take(Detectors detectors) {
    rules = detectors.rules().stream().map(RunRule::id).toArray(String[]::new);
    Ewma ewma = detectors.ewma();
    ewmaLambda = ewma == null ? null : ewma.lambda();
    ewmaWidth = ewma == null ? null : ewma.width();
    Cusum cusum = detectors.cusum();
    cusumReference = cusum == null ? null : cusum.reference();
    cusumDecision = cusum == null ? null : cusum.decision();
    cusumHeadStart = cusum == null ? null : cusum.headStart();
  }

  private Detectors detectors() {
    return new Detectors(
        Arrays.stream(rules).map(RunRule::named).collect(Collectors.toSet()),
        ewmaLambda == null ? null : new Ewma(ewmaLambda, ewmaWidth),
        cusumReference == null ? null : new Cusum(cusumReference, cusumDecision, cusumHeadStart));
  }

  Stream toStream(List<DatedSpecification> specifications) {
    return new Stream(
        id,
        line,
        slug,
        name,
        SamplingPoint.named(samplingPoint),
        Measurand.named(measurand),
        unit,
        inlet,
        outlet,
        new ChartSettings(Dispersion.named(dispersion), Scale.named(scale), detectors()),
        specifications,
        version);
  }
}
