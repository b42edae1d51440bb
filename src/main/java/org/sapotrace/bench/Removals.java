package org.sapotrace.bench;

import static java.util.stream.Collectors.toMap;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.monitoring.ChartedResult;
import org.sapotrace.monitoring.Hindsight;
import org.sapotrace.monitoring.Monitoring;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;

/*
 * Whatever happens on either side means the same: the batches that it touched are derived anew, and
 * where that comes out otherwise than what is on record, a revision is added. It happens in the
 * transaction of the change, so that nothing is lost. The locks are taken in one order: the side
 * that changes, then its removal streams by their slugs. Both sides of a batch may be recorded at
 * the same time; whichever comes second waits for the removal stream, and sees the first.
 */
/** Keeps the removal streams in step with the streams before and behind a wash or tower. */
@ApplicationScoped
class Removals {

  private static final int TOGETHER = 500;

  private static final Comparator<Sides.Derived> IN_ORDER =
      Comparator.comparing((Sides.Derived each) -> each.entry().sampledAt())
          .thenComparing(each -> each.entry().outlet());

  private final ProductLines productLines;
  private final Monitoring monitoring;
  private final Results results;
  private final InstantSource clock;

  Removals(ProductLines productLines, Monitoring monitoring, Results results, InstantSource clock) {
    this.productLines = productLines;
    this.monitoring = monitoring;
    this.results = results;
    this.clock = clock;
  }

  /**
   * Derives the removals of some batches anew. The caller holds the stream's lock, and no other.
   *
   * @param side the stream in which something of these batches changed
   * @param reason why, as a clause
   */
  void follow(Stream side, Collection<String> batches, String reason) {
    follow(side, batches, reason, Hindsight.NONE);
  }

  void follow(Stream side, Collection<String> batches, String reason, Hindsight hindsight) {
    if (isSide(side) && !batches.isEmpty()) {
      productLines
          .lockRemovals(side)
          .forEach(removal -> derive(removal, new LinkedHashSet<>(batches), reason, hindsight));
    }
  }

  /** Derives the removals of all batches on record. */
  void follow(@Observes ProductLines.InletChanged change) {
    Stream removal = change.removal();
    Set<String> batches = new LinkedHashSet<>(results.batches(side(removal, removal.outlet())));
    batches.addAll(results.batches(removal.id()));
    derive(
        removal,
        batches,
        "stream %s was given the inlet %s".formatted(removal.outlet(), removal.inlet()),
        Hindsight.NONE);
  }

  /**
   * What is to be said of batches that have no removal although both sides are known.
   *
   * @param side a stream on either side
   * @return by batch; none for a batch of which nothing is to be said
   */
  Map<String, List<String>> cautions(Stream side, Collection<String> batches) {
    if (!isSide(side) || batches.isEmpty()) {
      return Map.of();
    }
    Map<String, List<String>> cautions = new HashMap<>();
    for (Stream removal : productLines.removals(side)) {
      sides(removal, batches)
          .forEach(
              (batch, sides) ->
                  sides
                      .leftOut()
                      .ifPresent(
                          why ->
                              cautions.computeIfAbsent(batch, any -> new ArrayList<>()).add(why)));
    }
    return cautions;
  }

  /** The same of one batch. */
  List<String> cautions(Stream side, String batch) {
    return cautions(side, List.of(batch)).getOrDefault(batch, List.of());
  }

  private static boolean isSide(Stream stream) {
    return stream.measurand() == Measurand.SOAP;
  }

  private void derive(Stream removal, Set<String> batches, String reason, Hindsight hindsight) {
    List<Sides.Derived> added = new ArrayList<>();
    List<ChartedResult> revised = new ArrayList<>();
    for (List<String> some : together(batches)) {
      Map<String, RecordedResult> known = latest(removal.id(), some);
      sides(removal, some)
          .forEach(
              (batch, sides) -> {
                RecordedResult before = known.get(batch);
                Sides.Derived derived = sides.derive().orElse(null);
                if (before == null) {
                  Optional.ofNullable(derived).ifPresent(added::add);
                } else if (derived == null) {
                  withdraw(removal, before, reason + sides.leftOut().map("; "::concat).orElse(""));
                } else if (!derived.isAsIn(before.latest())) {
                  revise(removal, before, derived, reason).ifPresent(revised::add);
                }
              });
    }
    monitoring.correctAll(removal, revised, reason);
    added.sort(IN_ORDER);
    monitoring.chartAll(
        removal, added.stream().map(each -> add(removal, each)).toList(), hindsight);
  }

  private ChartedResult add(Stream removal, Sides.Derived derived) {
    RecordedResult added =
        new RecordedResult(
            productLines.nextIdentifier(removal.id()),
            removal.id(),
            derived.entry().batch(),
            derived.entry().sampledAt(),
            List.of(
                new RecordedResult.Revision(
                    1, clock.instant(), null, false, derived.entry(), derived.assessment())));
    results.add(added);
    return added.charted();
  }

  /** What is still to be charted anew; empty where that is done, as its time moved. */
  private Optional<ChartedResult> revise(
      Stream removal, RecordedResult before, Sides.Derived derived, String reason) {
    RecordedResult revised =
        before.with(
            new RecordedResult.Revision(
                before.latest().revision() + 1,
                clock.instant(),
                reason,
                false,
                derived.entry(),
                derived.assessment()));
    results.revise(revised);
    if (revised.sampledAt().equals(before.sampledAt())) {
      return Optional.of(revised.charted());
    }
    monitoring.correct(removal, revised.charted(), reason);
    return Optional.empty();
  }

  private void withdraw(Stream removal, RecordedResult before, String reason) {
    RecordedResult.Revision latest = before.latest();
    results.revise(
        before.with(
            new RecordedResult.Revision(
                latest.revision() + 1,
                clock.instant(),
                reason,
                true,
                latest.entered(),
                latest.assessment())));
    monitoring.withdraw(removal, before.id(), reason);
  }

  private static List<List<String>> together(Set<String> batches) {
    List<String> all = List.copyOf(batches);
    return IntStream.iterate(0, from -> from < all.size(), from -> from + TOGETHER)
        .mapToObj(from -> all.subList(from, Math.min(from + TOGETHER, all.size())))
        .toList();
  }

  /** Both sides of some batches, by batch. */
  private Map<String, Sides> sides(Stream removal, Collection<String> batches) {
    Map<String, RecordedResult> inlets = latest(side(removal, removal.inlet()), batches);
    Map<String, RecordedResult> outlets = latest(side(removal, removal.outlet()), batches);
    Map<String, Sides> sides = new LinkedHashMap<>();
    batches.forEach(
        batch -> sides.put(batch, new Sides(removal, inlets.get(batch), outlets.get(batch))));
    return sides;
  }

  private UUID side(Stream removal, @Nullable String slug) {
    return productLines.stream(Objects.requireNonNull(removal.line()), Objects.requireNonNull(slug))
        .id();
  }

  /** The latest result of each of some batches that counts, by batch. */
  private Map<String, RecordedResult> latest(UUID stream, Collection<String> batches) {
    return results.ofBatches(stream, batches).stream()
        .filter(result -> !result.latest().withdrawn())
        .collect(toMap(RecordedResult::batch, result -> result, (earlier, later) -> later));
  }
}
