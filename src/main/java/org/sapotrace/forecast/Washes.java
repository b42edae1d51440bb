package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.sapotrace.bench.Samples;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.Stream;
import org.sapotrace.washmodel.Forecast.Parameter;
import org.sapotrace.washmodel.WashScheme;
import org.sapotrace.washmodel.WaterWash;

/** Tells how many stages a water wash needs. */
@ApplicationScoped
class Washes {

  private static final int MOST = 30;

  private final Logbook logbook;
  private final Samples samples;
  private final Inlets inlets;

  Washes(Logbook logbook, Samples samples, Inlets inlets) {
    this.logbook = logbook;
    this.samples = samples;
    this.inlets = inlets;
  }

  /**
   * The outlook of a stream behind a wash, from the batches of the latest results of the present
   * phase.
   */
  Outlook of(Stream stream, WashPlan plan) {
    Instant since = Latest.of(logbook.beginningPhases(stream));
    List<Sample> behind =
        latestOfEach(samples.latest(stream.id(), new Samples.Search(since, false, MOST)));
    Inlets.Known before = inlets.of(stream, behind);
    List<Sample> both =
        behind.stream().filter(sample -> sample.value() > 0 && before.of(sample) != null).toList();
    List<UUID> evidence = before.evidence(both);
    if (both.size() < WaterWash.FEWEST) {
      return tooFew(both.size(), evidence).saying(before.notes());
    }
    Double limit = UpperLimit.of(stream, both.get(both.size() - 1).sampledAt());
    return limit == null
        ? UpperLimit.missing(Outlook.Kind.WATER_WASH, stream, evidence)
        : of(plan, both, before, limit, evidence).saying(before.notes());
  }

  /**
   * Of each batch its latest sample, in order: who sampled it thrice saw it washed once. A name
   * that comes back later than a batch is washed is another batch.
   */
  static List<Sample> latestOfEach(List<Sample> inOrder) {
    List<Sample> latest = new ArrayList<>();
    Map<String, Sample> ofName = new HashMap<>();
    for (Sample sample : inOrder) {
      Sample before = ofName.put(sample.batch(), sample);
      if (before != null && Pairing.mayBeOneBatch(before, sample)) {
        latest.remove(before);
      }
      latest.add(sample);
    }
    return List.copyOf(latest);
  }

  private static Outlook of(
      WashPlan plan, List<Sample> both, Inlets.Known before, double limit, List<UUID> evidence) {
    Outlook asked = by(plan, both, before, limit, evidence);
    if (asked.isInsufficient()) {
      return asked.missing("A look at the entries: one of them is beyond any wash.");
    }
    WashScheme other =
        plan.scheme() == WashScheme.CROSS_FLOW ? WashScheme.COUNTER_CURRENT : WashScheme.CROSS_FLOW;
    Outlook otherwise = by(plan.by(other), both, before, limit, evidence);
    double perStage = asked.parameters().get(0).value() / plan.stages();
    double error = asked.parameters().get(0).standardError() / plan.stages();
    return asked
        .with(List.of(new Parameter("removal per stage", perStage, error, "1")))
        .saying(
            List.of(
                "The wash was taken as one of %d %s (%s)."
                    .formatted(
                        plan.stages(), plan.stages() == 1 ? "stage" : "stages", plan.scheme().id()),
                "By %s: %s".formatted(other.id(), otherwise.reason())));
  }

  private static Outlook by(
      WashPlan plan, List<Sample> both, Inlets.Known before, double limit, List<UUID> evidence) {
    List<WaterWash.Batch> batches =
        both.stream()
            .map(sample -> new WaterWash.Batch(before.mean(List.of(sample)), sample.value()))
            .toList();
    return Outlook.of(
        Outlook.Kind.WATER_WASH,
        WaterWash.stagesNeeded(plan.scheme(), plan.stages(), batches, before.mean(both), limit),
        evidence);
  }

  private static Outlook tooFew(int known, List<UUID> evidence) {
    return Outlook.insufficient(
            Outlook.Kind.WATER_WASH,
            "%d of the %d batches that are needed have soap above 0 before and after the wash."
                .formatted(known, WaterWash.FEWEST),
            evidence)
        .missing(
            "Batches with results above 0, and with the soap before the wash: an inlet of the stream with results of the same batches, or inletMgPerKg with the titrations; still wanted: %d."
                .formatted(WaterWash.FEWEST - known));
  }
}
