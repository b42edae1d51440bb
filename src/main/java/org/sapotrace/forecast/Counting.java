package org.sapotrace.forecast;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import java.util.UUID;
import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.measure.Rounding;
import org.sapotrace.washmodel.Throughput;

/*
 * One number in the wrong field is to set aside itself, and not all the others: the unit is that of
 * most of the latest few, so that a bench that changes over is followed after three samples.
 */
/**
 * How what went through a tower or a flush is counted.
 *
 * @param samples that say it in either unit, in order
 * @param counted in bed volumes, if half of the latest 5 samples say them, or else in litres
 * @param bed in litres, by the samples that say both; null if none does, or they disagree
 */
record Counting(List<Sample> samples, Throughput counted, @Nullable Double bed) {

  private static final int LATEST = 5;
  private static final double MIDDLE = 50;
  private static final double AGREEING = 0.02;

  static Counting of(List<Sample> samples) {
    List<Sample> latest = samples.subList(Math.max(0, samples.size() - LATEST), samples.size());
    long inBedVolumes = latest.stream().filter(sample -> sample.bedVolumes() != null).count();
    boolean isByBed = inBedVolumes > 0 && 2 * inBedVolumes >= latest.size();
    return new Counting(
        samples, isByBed ? Throughput.BED_VOLUMES : Throughput.LITRES, bed(samples));
  }

  private static @Nullable Double bed(List<Sample> samples) {
    List<Double> beds = new ArrayList<>();
    for (Sample sample : samples) {
      Double litres = sample.litres();
      Double bedVolumes = sample.bedVolumes();
      if (litres != null && bedVolumes != null && litres > 0 && bedVolumes > 0) {
        beds.add(litres / bedVolumes);
      }
    }
    double[] all = beds.stream().mapToDouble(Double::doubleValue).toArray();
    double middle = StatUtils.percentile(all, MIDDLE);
    boolean isAgreed =
        all.length > 0
            && beds.stream().allMatch(each -> Math.abs(each - middle) <= AGREEING * middle);
    return isAgreed ? (Double) middle : null;
  }

  private @Nullable Double typed(Sample sample) {
    return counted == Throughput.BED_VOLUMES ? sample.bedVolumes() : sample.litres();
  }

  /** By the bed; null where that is not known. */
  private @Nullable Double converted(Sample sample) {
    Double litres = sample.litres();
    Double bedVolumes = sample.bedVolumes();
    if (bed == null) {
      return null;
    }
    if (counted == Throughput.BED_VOLUMES) {
      return litres == null ? null : (Double) (litres / bed);
    }
    return bedVolumes == null ? null : (Double) (bedVolumes * bed);
  }

  /** What had gone through by each sample, by result: as typed, or converted where that fits in. */
  Map<UUID, Double> volumes() {
    Map<UUID, Double> volumes = new HashMap<>();
    for (int i = 0; i < samples.size(); i++) {
      Double typed = typed(samples.get(i));
      Double volume = typed == null ? fitting(i) : typed;
      if (volume != null) {
        volumes.put(samples.get(i).result(), volume);
      }
    }
    return volumes;
  }

  /** Converted, if nothing goes back by it; null else. */
  private @Nullable Double fitting(int index) {
    Double volume = converted(samples.get(index));
    if (volume == null) {
      return null;
    }
    TreeSet<Double> before = known(samples.subList(0, index));
    TreeSet<Double> behind = known(samples.subList(index + 1, samples.size()));
    boolean fits =
        (before.isEmpty() || volume >= before.last())
            && (behind.isEmpty() || volume <= behind.first());
    return fits ? volume : null;
  }

  private TreeSet<Double> known(List<Sample> some) {
    TreeSet<Double> known = new TreeSet<>();
    for (Sample sample : some) {
      Double typed = typed(sample);
      if (typed != null) {
        known.add(typed);
      }
    }
    return known;
  }

  /** What was converted, what was left out, and whether the latest is among that. */
  List<String> notes() {
    Map<UUID, Double> volumes = volumes();
    List<Sample> known =
        samples.stream().filter(sample -> volumes.containsKey(sample.result())).toList();
    List<Sample> taken = known.stream().filter(sample -> typed(sample) == null).toList();
    List<Sample> left = samples.stream().filter(sample -> !known.contains(sample)).toList();
    List<String> notes = new ArrayList<>();
    if (bed != null && !taken.isEmpty()) {
      notes.add(
          "Converted to %s by the bed of %s L that titrations with both tell: %s."
              .formatted(counted.unit(), Rounding.of(bed), named(taken)));
    }
    if (!left.isEmpty()) {
      notes.add(
          "Left out, as it is not known in %s, in which most of the latest titrations are: %s. Correct it if it was typed into the wrong field; one titration with both litres and bedVolumes tells the size of the bed."
              .formatted(counted.unit(), named(left)));
      Sample last = known.get(known.size() - 1);
      if (left.contains(samples.get(samples.size() - 1))) {
        notes.add(
            "What is left counts from the sample of %s.".formatted(BedAge.day(last.sampledAt())));
      }
    }
    return notes;
  }

  private static String named(List<Sample> some) {
    return FirstFew.of(some.stream().map(Counting::inWords).toList());
  }

  private static String inWords(Sample sample) {
    String typed =
        sample.litres() != null
            ? Rounding.of(sample.litres()) + " L"
            : Rounding.of(Objects.requireNonNull(sample.bedVolumes())) + " bed volumes";
    return "%s of %s (result %s, %s)"
        .formatted(sample.batch(), BedAge.day(sample.sampledAt()), sample.result(), typed);
  }
}
