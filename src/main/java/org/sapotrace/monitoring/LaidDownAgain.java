package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.productline.Stream;

/**
 * Limits that stay as they are and yet are laid down once more, because something else changed from
 * some time on. Of several revisions that cover a sample the latest judges, so those laid down for
 * later come again, too.
 */
final class LaidDownAgain {

  /** Makes a revision of some limits that holds from then on. */
  @FunctionalInterface
  private interface Copy {
    LimitsRevision of(LimitsRevision limits, int number, Instant beginning);
  }

  private LaidDownAgain() {}

  /**
   * Those that are under other rules than the stream's.
   *
   * @param from the first time of sampling that the new rules judge
   */
  static List<LimitsRevision> underNewRules(Stream stream, Regime regime, Instant from) {
    Detectors rules = stream.chart().detectors();
    return again(
        regime,
        from,
        // A change of what limits are laid down by alters none that are there.
        limits -> !limits.detectors().equals(rules),
        (limits, number, beginning) -> limits.underRules(number, beginning, from, rules));
  }

  /**
   * Those that are adopted, so that points judged before the phase was known keep their revision;
   * none where no adopted ones are in force when the phase begins.
   *
   * @param at the beginning of the phase
   */
  static List<LimitsRevision> inNewPhase(Regime regime, Instant at, Instant now) {
    return regime.inForce(at).filter(LimitsRevision::isAdopted).isEmpty()
        ? List.of()
        : again(
            regime,
            at,
            LimitsRevision::isAdopted,
            (limits, number, beginning) -> limits.inNewPhase(number, beginning, now));
  }

  /** The limits in force at a time, and those laid down for later, as far as they are concerned. */
  private static List<LimitsRevision> again(
      Regime regime, Instant from, Predicate<LimitsRevision> concerned, Copy copy) {
    Map<Instant, LimitsRevision> since = new LinkedHashMap<>();
    regime.inForce(from).filter(concerned).ifPresent(current -> since.put(from, current));
    for (LimitsRevision later : regime.revisions()) {
      Instant beginning = later.effectiveFrom();
      if (beginning != null
          && beginning.isAfter(from)
          && concerned.test(later)
          && regime.inForce(beginning).equals(Optional.of(later))) {
        since.put(beginning, later);
      }
    }
    List<LimitsRevision> copies = new ArrayList<>();
    int known = regime.revisions().size();
    since.forEach(
        (beginning, limits) -> copies.add(copy.of(limits, known + copies.size() + 1, beginning)));
    return copies;
  }
}
