package org.sapotrace.forecast;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.UUID;
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
 * @param bed by the samples that say both
 */
record Counting(List<Sample> samples, Throughput counted, BedSize bed) {

  private static final int LATEST = 5;

  static Counting of(List<Sample> samples) {
    List<Sample> latest = samples.subList(Math.max(0, samples.size() - LATEST), samples.size());
    long inBedVolumes = latest.stream().filter(sample -> sample.bedVolumes() != null).count();
    boolean isByBed = inBedVolumes > 0 && 2 * inBedVolumes >= latest.size();
    return new Counting(
        samples, isByBed ? Throughput.BED_VOLUMES : Throughput.LITRES, BedSize.of(samples));
  }

  private @Nullable Double typed(Sample sample) {
    return counted == Throughput.BED_VOLUMES ? sample.bedVolumes() : sample.litres();
  }

  /** By the bed; null where that is not known. */
  private @Nullable Double converted(Sample sample) {
    Double size = bed.litres();
    if (size == null) {
      return null;
    }
    return counted == Throughput.BED_VOLUMES
        ? inTheOther(sample) / size
        : inTheOther(sample) * size;
  }

  /** The number of a sample that does not say what is counted. */
  private double inTheOther(Sample sample) {
    return Objects.requireNonNull(
        counted == Throughput.BED_VOLUMES ? sample.litres() : sample.bedVolumes());
  }

  /** What had gone through by each sample, by result: as typed, or converted where that fits in. */
  Map<UUID, Double> volumes() {
    Map<UUID, Double> volumes = new HashMap<>();
    double before = 0;
    for (int i = 0; i < samples.size(); i++) {
      Double typed = typed(samples.get(i));
      Double volume = typed == null ? fitting(i, before) : typed;
      if (volume != null) {
        volumes.put(samples.get(i).result(), volume);
        before = Math.max(before, volume);
      }
    }
    return volumes;
  }

  /**
   * Converted, if nothing goes back by it, and if it was not typed into the wrong field; null else.
   */
  private @Nullable Double fitting(int index, double before) {
    Sample sample = samples.get(index);
    Double volume = converted(sample);
    if (volume == null || volume < before) {
      return null;
    }
    OptionalDouble behind =
        samples.subList(index + 1, samples.size()).stream()
            .map(this::typed)
            .filter(Objects::nonNull)
            .mapToDouble(Double::doubleValue)
            .min();
    boolean fits =
        behind.isPresent()
            ? volume <= behind.getAsDouble()
            : !isInWrongField(inTheOther(sample), volume, before);
    return fits ? volume : null;
  }

  /** Of the newest, which nothing behind holds: it goes on as typed, and leaps if converted. */
  private static boolean isInWrongField(double typed, double converted, double before) {
    return typed >= before && typed < converted && converted - before > before;
  }

  /** What was converted, what was left out, and whether the latest is among that. */
  List<String> notes() {
    Map<UUID, Double> volumes = volumes();
    List<Sample> known =
        samples.stream().filter(sample -> volumes.containsKey(sample.result())).toList();
    List<Sample> taken = known.stream().filter(sample -> typed(sample) == null).toList();
    List<Sample> left = samples.stream().filter(sample -> !known.contains(sample)).toList();
    List<String> notes = new ArrayList<>();
    if (bed.litres() != null && !taken.isEmpty()) {
      notes.add(
          "Converted to %s by the bed of %s L that titrations with both tell: %s."
              .formatted(counted.unit(), Rounding.of(bed.litres()), named(taken)));
    }
    if (!left.isEmpty()) {
      notes.add(leftOut(left));
      Sample last = known.get(known.size() - 1);
      if (left.contains(samples.get(samples.size() - 1))) {
        notes.add(
            "What is left counts from the sample of %s.".formatted(BedAge.day(last.sampledAt())));
      }
    }
    return notes;
  }

  /** Why, and what to do: it does not fit, or the bed is not known, or it is told differently. */
  private String leftOut(List<Sample> left) {
    if (bed.litres() != null) {
      return "Left out, as it goes back or leaps when it is converted to %s by the bed of %s L: %s. Correct it if it was typed into the wrong field."
          .formatted(counted.unit(), Rounding.of(bed.litres()), named(left));
    }
    String unknown =
        "Left out, as it is not known in %s, in which most of the latest titrations are: %s. Correct it if it was typed into the wrong field; "
            .formatted(counted.unit(), named(left));
    return unknown
        + (bed.told().isEmpty()
            ? "one titration with both litres and bedVolumes tells the size of the bed."
            : "the titrations with both litres and bedVolumes disagree on the size of the bed, from %s: correct the one that is wrong."
                .formatted(bed.range()));
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
