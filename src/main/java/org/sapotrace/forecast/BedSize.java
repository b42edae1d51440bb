package org.sapotrace.forecast;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.measure.Rounding;

/**
 * The size of a bed, by the samples that say in litres and in bed volumes what had gone through.
 *
 * @param told by each of them
 * @param litres all litres by all bed volumes, as rounding tells least where much went through;
 *     null where none says both, or they disagree
 */
record BedSize(List<Both> told, @Nullable Double litres) {

  private static final double AGREEING = 0.02;

  /** What had gone through in both units, above 0. */
  record Both(double litres, double bedVolumes) {

    private double size() {
      return litres / bedVolumes;
    }

    /** Within 2 %, and half of the last place that was typed of either. */
    private boolean agreesWith(double size) {
      double expected = size * bedVolumes;
      double allowed = AGREEING * expected + half(litres) + size * half(bedVolumes);
      return Math.abs(litres - expected) <= allowed;
    }

    /** A last 0 behind the point is not known to have been typed. */
    private static double half(double typed) {
      int places = Math.max(0, BigDecimal.valueOf(typed).stripTrailingZeros().scale());
      return 0.5 * Math.pow(10, -places);
    }
  }

  BedSize {
    told = List.copyOf(told);
  }

  static BedSize of(List<Sample> samples) {
    List<Both> told = new ArrayList<>();
    for (Sample sample : samples) {
      Double litres = sample.litres();
      Double bedVolumes = sample.bedVolumes();
      if (litres != null && bedVolumes != null && litres > 0 && bedVolumes > 0) {
        told.add(new Both(litres, bedVolumes));
      }
    }
    double size =
        told.stream().mapToDouble(Both::litres).sum()
            / told.stream().mapToDouble(Both::bedVolumes).sum();
    boolean isKnown = !told.isEmpty() && told.stream().allMatch(both -> both.agreesWith(size));
    return new BedSize(told, isKnown ? (Double) size : null);
  }

  /** From the least to the greatest that is told, of one or more. */
  String range() {
    double[] sizes = told.stream().mapToDouble(Both::size).sorted().toArray();
    return "%s to %s L".formatted(Rounding.of(sizes[0]), Rounding.of(sizes[sizes.length - 1]));
  }
}
