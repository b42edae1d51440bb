package org.sapotrace.forecast;

import static java.util.function.Function.identity;
import static java.util.stream.Collectors.groupingBy;
import static java.util.stream.Collectors.toMap;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.washmodel.Strays;

/** Finds the soap that there was before a wash or tower. */
@ApplicationScoped
class Inlets {

  /**
   * The soap before one sample.
   *
   * @param mgPerKg above 0
   * @param detectionLimit of it, or where it was typed, of the sample behind; null for unknown
   * @param result that tells it; null where it was typed with the sample behind
   */
  record Before(
      Sample outlet, double mgPerKg, @Nullable Double detectionLimit, @Nullable UUID result) {

    static Before typed(Sample outlet, double mgPerKg) {
      return new Before(outlet, mgPerKg, outlet.detectionLimit(), null);
    }

    static Before found(Sample outlet, Sample inlet) {
      return new Before(outlet, inlet.value(), inlet.detectionLimit(), inlet.result());
    }

    /** As it is compared with others: below detection factors tell nothing. */
    private double atLeastDetected() {
      return detectionLimit == null ? mgPerKg : Math.max(mgPerKg, detectionLimit);
    }

    /** The result that tells it: one before may stand for several behind. */
    private UUID source() {
      return result == null ? outlet.result() : result;
    }

    /** That it does not belong to the others. */
    private String strayFrom(double usual) {
      return "%s mg/kg before %s of %s (result %s), where others have some %s"
          .formatted(
              Rounding.of(mgPerKg),
              outlet.batch(),
              BedAge.day(outlet.sampledAt()),
              source(),
              Rounding.of(usual));
    }
  }

  /**
   * The soap before samples, by the result behind; who is not in it, of them nobody knows.
   *
   * @param notes what has to be said of it
   */
  record Known(Map<UUID, Before> before, List<String> notes) {

    /** Without those that stray from the others, with what was said so far. */
    static Known of(List<Before> inOrder, List<String> said) {
      Map<UUID, Before> each = new LinkedHashMap<>();
      inOrder.forEach(before -> each.putIfAbsent(before.source(), before));
      List<Before> judged = List.copyOf(each.values());
      List<String> strays = new ArrayList<>();
      for (Strays.Stray stray :
          Strays.among(judged.stream().map(Before::atLeastDetected).toList())) {
        Before left = judged.get(stray.index());
        each.remove(left.source());
        strays.add(left.strayFrom(stray.usual()));
      }
      List<String> notes = new ArrayList<>(said);
      if (!strays.isEmpty()) {
        notes.add(
            "Left out, as it does not go with those around it: %s. Look whether it was mistyped, and correct it."
                .formatted(FirstFew.of(strays)));
      }
      return new Known(
          inOrder.stream()
              .filter(before -> each.containsKey(before.source()))
              .collect(toMap(before -> before.outlet().result(), identity())),
          notes);
    }

    @Nullable Double of(Sample sample) {
      Before found = before.get(sample.result());
      return found == null ? null : (Double) found.mgPerKg();
    }

    /** The results of some samples, and those before them. */
    List<UUID> evidence(List<Sample> samples) {
      List<UUID> all = new ArrayList<>(samples.stream().map(Sample::result).toList());
      samples.stream()
          .map(sample -> before.get(sample.result()))
          .filter(Objects::nonNull)
          .map(Before::result)
          .filter(Objects::nonNull)
          .distinct()
          .forEach(all::add);
      return all;
    }

    List<Double> inOrder(List<Sample> samples) {
      return samples.stream().map(this::of).filter(Objects::nonNull).toList();
    }

    double mean(List<Sample> samples) {
      return inOrder(samples).stream().mapToDouble(Double::doubleValue).average().orElseThrow();
    }
  }

  private final ProductLines productLines;
  private final Samples samples;

  Inlets(ProductLines productLines, Samples samples) {
    this.productLines = productLines;
    this.samples = samples;
  }

  /** The stream before a wash or tower; null for none. */
  @Nullable Stream before(Stream outlet) {
    return outlet.inlet() == null
        ? null
        : productLines.stream(Objects.requireNonNull(outlet.line()), outlet.inlet());
  }

  /**
   * As it was given with each sample, or else the result of the batch before it, but for those that
   * do not belong to the others.
   *
   * @param behind in order
   */
  Known of(Stream outlet, List<Sample> behind) {
    Map<String, List<Sample>> ofBatches = ofBatches(before(outlet), behind);
    List<Before> known = new ArrayList<>();
    List<Pairing> pairings = new ArrayList<>();
    for (Sample sample : behind) {
      if (sample.inletMgPerKg() != null) {
        known.add(Before.typed(sample, sample.inletMgPerKg()));
        continue;
      }
      Pairing pairing =
          Pairing.of(sample, Objects.requireNonNullElse(ofBatches.get(sample.batch()), List.of()));
      pairings.add(pairing);
      if (pairing.inlet() != null) {
        known.add(Before.found(sample, pairing.inlet()));
      }
    }
    return Known.of(known, Pairing.notes(pairings));
  }

  private Map<String, List<Sample>> ofBatches(@Nullable Stream before, List<Sample> behind) {
    if (before == null) {
      return Map.of();
    }
    List<String> batches =
        behind.stream()
            .filter(sample -> sample.inletMgPerKg() == null)
            .map(Sample::batch)
            .distinct()
            .toList();
    return samples.ofBatches(before.id(), batches).stream().collect(groupingBy(Sample::batch));
  }
}
