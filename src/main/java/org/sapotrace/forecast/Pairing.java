package org.sapotrace.forecast;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples.Sample;

/*
 * A batch is washed within days of being sampled. Its name may be used again, and who types times in
 * the evening types them roughly.
 */
/**
 * A sample behind a wash or tower with the one before it, of the same batch.
 *
 * @param inlet the latest one that was sampled within 7 days up to the outlet, or else the first
 *     one within a day after it; null where there is none
 * @param passedOver the one that lies nearest, where none is taken; null where the batch has none
 */
record Pairing(Sample outlet, @Nullable Sample inlet, @Nullable Sample passedOver) {

  private static final Duration LONGEST_BEFORE = Duration.ofDays(7);
  private static final Duration LONGEST_AFTER = Duration.ofDays(1);

  /**
   * The pairing of a sample.
   *
   * @param ofBatch all samples of its batch before the wash or tower, in order
   */
  static Pairing of(Sample outlet, List<Sample> ofBatch) {
    Sample before = null;
    Sample after = null;
    for (Sample inlet : ofBatch) {
      if (!inlet.sampledAt().isAfter(outlet.sampledAt())) {
        before = inlet;
      } else if (after == null) {
        after = inlet;
      }
    }
    Sample taken = isNear(before, outlet) ? before : isNear(after, outlet) ? after : null;
    return taken != null && taken.value() > 0
        ? new Pairing(outlet, taken, null)
        : new Pairing(outlet, null, taken == null ? nearest(outlet, ofBatch) : taken);
  }

  private static @Nullable Sample nearest(Sample outlet, List<Sample> ofBatch) {
    return ofBatch.stream()
        .min(
            Comparator.comparing(
                inlet -> Duration.between(inlet.sampledAt(), outlet.sampledAt()).abs()))
        .orElse(null);
  }

  /** Whether two samples of the same name lie no further apart than a batch is washed. */
  static boolean mayBeOneBatch(Sample earlier, Sample later) {
    return Duration.between(earlier.sampledAt(), later.sampledAt()).compareTo(LONGEST_BEFORE) <= 0;
  }

  private static boolean isNear(@Nullable Sample inlet, Sample outlet) {
    if (inlet == null) {
      return false;
    }
    Duration until = Duration.between(inlet.sampledAt(), outlet.sampledAt());
    return until.compareTo(LONGEST_BEFORE) <= 0 && until.negated().compareTo(LONGEST_AFTER) <= 0;
  }

  private boolean isRough() {
    return inlet != null && inlet.sampledAt().isAfter(outlet.sampledAt());
  }

  /**
   * What has to be said of some pairings: what was not paired and why, and what was paired roughly.
   */
  static List<String> notes(List<Pairing> pairings) {
    List<String> notes = new ArrayList<>();
    String passedOver = named(pairings, each -> each.passedOver != null);
    if (!passedOver.isEmpty()) {
      notes.add(
          "Not paired with what was before: %s. Taken is a result above 0 of the same batch, sampled up to 7 days before or, as times are typed roughly, up to a day after; inletMgPerKg says it for certain."
              .formatted(passedOver));
    }
    String rough = named(pairings, Pairing::isRough);
    if (!rough.isEmpty()) {
      notes.add(
          "Paired though the inlet was sampled after the outlet, within a day: %s."
              .formatted(rough));
    }
    return notes;
  }

  private static String named(List<Pairing> pairings, Predicate<Pairing> which) {
    return FirstFew.of(pairings.stream().filter(which).map(Pairing::inWords).toList());
  }

  private String inWords() {
    Sample before = inlet == null ? passedOver : inlet;
    String found =
        before == null ? "" : before.value() > 0 ? "its inlet" : "its inlet, not above 0,";
    return before == null
        ? outlet.batch()
        : "%s of %s (%s is of %s)"
            .formatted(
                outlet.batch(),
                BedAge.day(outlet.sampledAt()),
                found,
                BedAge.day(before.sampledAt()));
  }
}
