package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.Stream;
import org.sapotrace.washmodel.Flush;

/*
 * A flush begins at the latest event maintenance or media-change of its stream, and without one with
 * the first result that says what had gone through.
 */
/** Foresees how much more methanol cleans a tower. */
@ApplicationScoped
class Flushes {

  private static final int MOST = 200;

  private final Logbook logbook;
  private final Samples samples;

  Flushes(Logbook logbook, Samples samples) {
    this.logbook = logbook;
    this.samples = samples;
  }

  /** The outlook of a stream of the methanol that leaves a tower. */
  Outlook of(Stream stream) {
    Instant begun = Latest.of(logbook.countingAnew(stream));
    Passed passed = Passed.of(samples.latest(stream.id(), new Samples.Search(begun, true, MOST)));
    List<Sample> latest = samples.latest(stream.id(), new Samples.Search(begun, false, MOST));
    if (passed.samples().isEmpty()) {
      return withoutVolume(begun);
    }
    Double level = UpperLimit.of(stream, passed.last().sampledAt());
    if (level == null) {
      return UpperLimit.missing(Outlook.Kind.FLUSH, stream, passed.evidence());
    }
    double detection = passed.detection().orElse(0);
    if (!(detection > 0)) {
      return UpperLimit.undetected(Outlook.Kind.FLUSH, passed.evidence());
    }
    Outlook outlook =
        of(passed, latest, new Flush.Aim(passed.counted(), level, detection))
            .saying(passed.notes());
    return passed.isDetectionKnown()
        ? outlook
        : outlook.saying(List.of(UpperLimit.takenForDetection(detection)));
  }

  /** By the latest samples it is clean or not, whether they say what had gone through or not. */
  private static Outlook of(Passed passed, List<Sample> latest, Flush.Aim aim) {
    List<Flush.Reading> readings =
        passed.samples().stream()
            .map(sample -> new Flush.Reading(passed.volume(sample), sample.value()))
            .toList();
    List<Double> found = latest.stream().map(Sample::value).toList();
    Outlook outlook =
        Outlook.of(Outlook.Kind.FLUSH, Flush.of(aim, readings, found), evidence(passed, latest));
    long detected =
        passed.volumes(
            passed.samples().stream().filter(each -> each.value() > aim.detection()).toList());
    return !outlook.isInsufficient()
        ? outlook
        : outlook.missing(
            detected >= Flush.FEWEST
                ? "Samples further on."
                : "Two samples running within %s mg/kg, or samples above %s mg/kg at different volumes; still wanted: %d."
                    .formatted(
                        Rounding.of(aim.level()),
                        Rounding.of(aim.detection()),
                        Flush.FEWEST - detected));
  }

  private static List<UUID> evidence(Passed passed, List<Sample> latest) {
    List<Sample> judged = latest.subList(Math.max(0, latest.size() - Flush.RUNNING), latest.size());
    Set<UUID> evidence = new LinkedHashSet<>(passed.evidence());
    judged.forEach(sample -> evidence.add(sample.result()));
    return List.copyOf(evidence);
  }

  private static Outlook withoutVolume(@Nullable Instant begun) {
    String reason =
        begun == null
            ? "No sample says how much methanol had gone through."
            : "No sample since the flush of %s says how much methanol had gone through."
                .formatted(BedAge.day(begun));
    return Outlook.insufficient(Outlook.Kind.FLUSH, reason, List.of())
        .missing(
            "throughput with the titrations: litres or bedVolumes of methanol since the flush began, which the event maintenance tells.");
  }
}
