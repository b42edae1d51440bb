package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;

/** Finds the soap that there was before a wash or tower. */
@ApplicationScoped
class Inlets {

  /**
   * The soap before samples, by result.
   *
   * @param mgPerKg above 0 each; who is not in it, of them nobody knows
   * @param evidence the results before the wash or tower among them
   */
  record Known(Map<UUID, Double> mgPerKg, List<UUID> evidence) {

    @Nullable Double of(Sample sample) {
      return mgPerKg.get(sample.result());
    }

    /** The results of some samples, and those before them. */
    List<UUID> evidence(List<Sample> samples) {
      List<UUID> all = new ArrayList<>(samples.stream().map(Sample::result).toList());
      all.addAll(evidence);
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

  /** As it was given with each sample, or else the latest result of the batch before it. */
  Known of(Stream outlet, List<Sample> behind) {
    Map<String, Sample> before = ofBatches(before(outlet), behind);
    Map<UUID, Double> known = new HashMap<>();
    List<UUID> evidence = new ArrayList<>();
    for (Sample sample : behind) {
      Sample inlet = before.get(sample.batch());
      if (sample.inletMgPerKg() != null) {
        known.put(sample.result(), sample.inletMgPerKg());
      } else if (inlet != null && inlet.value() > 0) {
        known.put(sample.result(), inlet.value());
        evidence.add(inlet.result());
      }
    }
    return new Known(known, evidence.stream().distinct().toList());
  }

  private Map<String, Sample> ofBatches(@Nullable Stream before, List<Sample> behind) {
    if (before == null) {
      return Map.of();
    }
    List<String> batches =
        behind.stream()
            .filter(sample -> sample.inletMgPerKg() == null)
            .map(Sample::batch)
            .distinct()
            .toList();
    Map<String, Sample> latest = new HashMap<>();
    samples.ofBatches(before.id(), batches).forEach(each -> latest.put(each.batch(), each));
    return latest;
  }
}
