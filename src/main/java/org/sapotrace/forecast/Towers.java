package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.washmodel.Breakthrough;

/*
 * A bed is new at the event media-change. Before a tower behind another
 * one the soap is what the first lets through, and rises as that one fills: each batch counts with
 * its own, and the limit is looked for with the mean of the latest.
 */
/** Foresees when dry-wash towers let through too much soap. */
@ApplicationScoped
class Towers {

  private static final int MOST = 200;
  private static final int LATEST_INLETS = 3;
  private static final double KG_PER_M3 = 1000;
  private static final double USUAL_DENSITY_KG_PER_M3 = 880;

  private static final String GLYCERIN =
      "A clean soap figure does not clear a tower: glycerin comes through sooner.";

  private final ProductLines productLines;
  private final Logbook logbook;
  private final Samples samples;
  private final Inlets inlets;
  private final TowerFlushes flushes;

  Towers(
      ProductLines productLines,
      Logbook logbook,
      Samples samples,
      Inlets inlets,
      TowerFlushes flushes) {
    this.productLines = productLines;
    this.logbook = logbook;
    this.samples = samples;
    this.inlets = inlets;
    this.flushes = flushes;
  }

  /** The outlook of a stream behind a tower. */
  Outlook of(Stream stream) {
    Instant changed = Latest.of(logbook.countingAnew(stream));
    Passed passed = Passed.of(samples.latest(stream.id(), new Samples.Search(changed, true, MOST)));
    if (passed.samples().isEmpty()) {
      return withoutThroughput(changed);
    }
    TowerFlushes.Last flush = flushes.of(stream, changed, passed.last().sampledAt());
    BedAge age = new BedAge(passed, changed, flush.at());
    Outlook outlook =
        of(stream, passed)
            .saying(passed.notes())
            .with(age.parameters())
            .saying(age.inWords())
            .saying(flush.notes());
    return (changed != null || outlook.missing() != null
            ? outlook
            : outlook.missing(
                "The event media-change with which the bed was new: its age in days is not known."))
        .saying(List.of(GLYCERIN));
  }

  private static Outlook withoutThroughput(@Nullable Instant changed) {
    String reason =
        changed == null
            ? "No result says what had gone through the tower."
            : "No result since the bed was new on %s says what had gone through the tower."
                .formatted(BedAge.day(changed));
    return Outlook.insufficient(Outlook.Kind.BREAKTHROUGH, reason, List.of())
        .missing(
            "throughput with the titrations: bedVolumes or litres since the event media-change with which the bed was new, and inletMgPerKg or an inlet of the stream.")
        .saying(List.of(GLYCERIN));
  }

  private Outlook of(Stream stream, Passed passed) {
    Inlets.Known before = inlets.of(stream, passed.samples());
    List<UUID> evidence = before.evidence(passed.samples());
    Double limit = UpperLimit.of(stream, passed.last().sampledAt());
    if (limit == null) {
      return UpperLimit.missing(Outlook.Kind.BREAKTHROUGH, stream, evidence);
    }
    double detection = passed.detection().orElse(0);
    if (!(detection > 0)) {
      return UpperLimit.undetected(Outlook.Kind.BREAKTHROUGH, evidence);
    }
    boolean isLag = isBehindAnother(stream);
    Line line = productLines.line(Objects.requireNonNull(stream.line()));
    Breakthrough.Tower tower =
        new Breakthrough.Tower(
            passed.counted(),
            limit,
            detection,
            density(line),
            isLag ? latest(before.inOrder(passed.samples())) : null);
    List<Breakthrough.Reading> readings =
        passed.samples().stream()
            .map(
                sample ->
                    new Breakthrough.Reading(
                        passed.volume(sample), sample.value(), before.of(sample)))
            .toList();
    Outlook outlook =
        Outlook.of(Outlook.Kind.BREAKTHROUGH, Breakthrough.of(tower, readings), evidence)
            .saying(before.notes())
            .saying(notes(passed, detection, isLag));
    return outlook.isInsufficient() ? outlook.missing(missing(passed, before, detection)) : outlook;
  }

  private static List<String> notes(Passed passed, double detection, boolean isLag) {
    List<String> notes = new ArrayList<>();
    if (isLag) {
      notes.add(
          "The tower lies behind another, so that the soap before it rises as that one fills: the mean of the latest %d batches was taken for what comes, and more comes later."
              .formatted(LATEST_INLETS));
    }
    if (!passed.isDetectionKnown()) {
      notes.add(UpperLimit.takenForDetection(detection));
    }
    return notes;
  }

  private static @Nullable String missing(Passed passed, Inlets.Known before, double detection) {
    List<Sample> detected =
        passed.samples().stream().filter(sample -> sample.value() > detection).toList();
    long known =
        passed.volumes(detected.stream().filter(sample -> before.of(sample) != null).toList());
    if (known >= Breakthrough.FEWEST) {
      return "A look at the entries: one of them does not go with the others.";
    }
    return passed.volumes(detected) >= Breakthrough.FEWEST
        ? "The soap before the tower: inletMgPerKg with the titrations, or an inlet of the stream with results of the same batches."
        : "Results above %s mg/kg at different throughputs, with the soap before the tower; still wanted: %d."
            .formatted(Rounding.of(detection), Breakthrough.FEWEST - known);
  }

  private static @Nullable Double latest(List<Double> inlets) {
    return inlets.isEmpty()
        ? null
        : (Double)
            inlets.subList(Math.max(0, inlets.size() - LATEST_INLETS), inlets.size()).stream()
                .mapToDouble(Double::doubleValue)
                .average()
                .orElseThrow();
  }

  /** In kg/L. */
  private static double density(Line line) {
    return Objects.requireNonNullElse(line.density15KgPerM3(), USUAL_DENSITY_KG_PER_M3) / KG_PER_M3;
  }

  private boolean isBehindAnother(Stream stream) {
    Stream before = inlets.before(stream);
    return before != null && before.samplingPoint() == SamplingPoint.AFTER_DRY_WASH;
  }
}
