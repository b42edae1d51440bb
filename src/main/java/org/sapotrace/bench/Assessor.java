package org.sapotrace.bench;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.BlankSeries;
import org.sapotrace.chemistry.Requirement;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.chemistry.WholeSample;
import org.sapotrace.controlchart.Subgroup;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Makes a figure and a verdict of an entry, by what its stream measures. */
@ApplicationScoped
class Assessor {

  private static final double USUAL_COVERAGE_FACTOR = 2;

  private final Blanks blanks;
  private final TitrantLots lots;

  Assessor(Blanks blanks, TitrantLots lots) {
    this.blanks = blanks;
    this.lots = lots;
  }

  /**
   * Assesses an entry of a stream under a line.
   *
   * @param background what the record says beside the entry
   * @throws Refusal pointing at what cannot be true
   */
  Assessment assess(Line line, Stream stream, Entry entry, Background background) {
    if (stream.isKeptRemoval()) {
      throw Refusal.impossible(
          "Stream %s is kept by the service: record what was found before and behind %s, and the removal of each batch follows."
              .formatted(stream.slug(), stream.outlet()));
    }
    Requirement requirement = requirement(stream, entry.sampledAt());
    if (entry instanceof Titration titration) {
      TitrationBasis basis = basis(line, stream, requirement, background, titration.sampledAt());
      return assess(
          titration.readings(), basis, titration.sampledAt(), background.interpolatesLots(), null);
    }
    return measuredElsewhere(line, stream, requirement, (MeasuredElsewhere) entry);
  }

  /** What a sample of a stream must meet; null where nothing was specified. */
  static @Nullable Requirement requirement(Stream stream, Instant sampledAt) {
    return stream
        .specificationAt(sampledAt)
        .map(limits -> new Requirement(stream.samplingPoint(), limits, stream.unit()))
        .orElse(null);
  }

  /**
   * Assesses the readings of a titration.
   *
   * @param sampledAt when the sample was taken, which decides what a lot was worth
   * @param propagation null for variances
   */
  Assessment assess(
      Readings readings,
      TitrationBasis basis,
      Instant sampledAt,
      boolean interpolate,
      @Nullable Propagation propagation) {
    String lot = readings.titrant().lot();
    LotStrength strength =
        lot == null
            ? null
            : interpolate ? lots.interpolated(lot, sampledAt) : lots.latest(lot, sampledAt);
    return TitrationAssessor.assess(readings, basis, strength, propagation);
  }

  private TitrationBasis basis(
      Line line,
      Stream stream,
      @Nullable Requirement requirement,
      Background background,
      Instant sampledAt) {
    TitrationBasis.KnownDensity density =
        stream.samplingPoint() == SamplingPoint.FLUSH_METHANOL
            ? TitrationBasis.KnownDensity.methanol()
            : TitrationBasis.KnownDensity.of(
                line.density15KgPerM3(), line.density15StandardUncertainty());
    return new TitrationBasis(
        analyte(line, stream),
        density.density(),
        density.caution(),
        requirement,
        stream.measurand() == Measurand.SOAP ? blanks(line, sampledAt) : null,
        background.pooled(),
        stream.samplingPoint(),
        background.normalityBefore());
  }

  /**
   * The line's latest blanks, at most 30 of them, which is as far back as solvent and indicator are
   * taken to be the same; null for fewer than 2. They are those of soap titrations: free alkali has
   * no blank of its own, and acidity is titrated with alkali and in another solvent.
   */
  private @Nullable BlankSeries blanks(Line line, Instant sampledAt) {
    List<Double> latest = blanks.latest(line.slug(), sampledAt, Blanks.MOST);
    return latest.size() < 2 ? null : Refusal.at("#/blankMl", () -> BlankSeries.of(latest));
  }

  private static Analyte analyte(Line line, Stream stream) {
    Measurand measurand = stream.measurand();
    return switch (measurand) {
      case SOAP -> Analyte.soap(line.alkali());
      case FREE_ALKALI -> Analyte.freeAlkali(line.alkali());
      case ACID_NUMBER -> Analyte.acidNumber();
      case FREE_FATTY_ACID -> Analyte.freeFattyAcid();
      case TITRANT_STRENGTH, REMOVAL, OTHER ->
          throw Refusal.impossible(
              "Stream %s measures %s, which no titration of a sample gives; record its figures as results."
                  .formatted(stream.slug(), measurand.label()));
    };
  }

  private static Assessment measuredElsewhere(
      Line line, Stream stream, @Nullable Requirement requirement, MeasuredElsewhere entry) {
    if (entry.values().size() > 1 && !stream.chart().isOfSubgroups()) {
      throw Refusal.impossible(
          "#/values/1",
          "Stream %s takes one value for a result, because it is charted by single results. Give one, or put the stream with chart.subgroupSize set."
              .formatted(stream.slug()));
    }
    refuseMoreThanTheWhole(wholeSample(stream), entry.values());
    double value = new Subgroup(entry.values()).mean();
    Alkali metal = stream.measurand() == Measurand.SOAP ? line.alkali() : null;
    List<String> cautions = new ArrayList<>();
    Oddities.limit(requirement, metal).ifPresent(cautions::add);
    Double expanded = entry.expandedUncertainty();
    Double factor = coverageFactor(entry, requirement != null, cautions);
    Double standard = expanded == null || factor == null ? null : (Double) (expanded / factor);
    Figure figure =
        new Figure(
            value,
            stream.unit(),
            standard,
            expanded,
            factor,
            null,
            entry.values(),
            null,
            List.of(),
            metal == null ? null : Figure.Metal.in(value, metal),
            null,
            null);
    return new Assessment(figure, false, verdict(requirement, figure), null, cautions);
  }

  private static void refuseMoreThanTheWhole(@Nullable WholeSample whole, List<Double> values) {
    for (int i = 0; whole != null && i < values.size(); i++) {
      if (!whole.holds(values.get(i))) {
        throw Refusal.impossible(
            "#/values/" + i,
            "No sample has %s %s; what is measured of one is %s: check the value and its unit."
                .formatted(Rounding.of(values.get(i)), whole.unit(), whole.inWords()));
      }
    }
  }

  /** What bounds the figures of a stream; null where nothing does. */
  private static @Nullable WholeSample wholeSample(Stream stream) {
    return switch (stream.measurand()) {
      case SOAP, FREE_ALKALI -> WholeSample.MASS;
      case ACID_NUMBER -> WholeSample.ACIDITY;
      case FREE_FATTY_ACID -> WholeSample.PER_CENT;
      case TITRANT_STRENGTH, REMOVAL -> null;
      case OTHER -> stream.unit().equals(Figure.MG_PER_KG) ? WholeSample.MASS : null;
    };
  }

  private static @Nullable Double coverageFactor(
      MeasuredElsewhere entry, boolean isJudged, List<String> cautions) {
    if (entry.expandedUncertainty() == null) {
      if (entry.coverageFactor() != null) {
        throw Refusal.impossible(
            "#/coverageFactor", "A coverage factor says nothing without expandedUncertainty.");
      }
      cautions.add(
          isJudged
              ? "No uncertainty was given: the value was compared as it stands."
              : "No uncertainty was given: what the value is worth is not known.");
      return null;
    }
    if (entry.coverageFactor() == null) {
      cautions.add("No coverage factor was given: 2 was taken.");
      return USUAL_COVERAGE_FACTOR;
    }
    return entry.coverageFactor();
  }

  static @Nullable Verdict verdict(@Nullable Requirement requirement, Figure figure) {
    if (requirement == null) {
      return null;
    }
    Double standard = figure.standardUncertainty();
    Double expanded = figure.expandedUncertainty();
    return standard == null || expanded == null
        ? requirement.compare(figure.value())
        : requirement.judge(figure.value(), standard, expanded);
  }
}
