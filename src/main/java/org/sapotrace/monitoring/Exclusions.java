package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.sapotrace.productline.Stream;

/** Tells which results are left out of baselines. */
@ApplicationScoped
class Exclusions {

  private final Signals signals;

  Exclusions(Signals signals) {
    this.signals = signals;
  }

  /**
   * What is left out of any baseline of a stream: what somebody names, and what findings exclude
   * besides.
   *
   * @param named even where they are not among its results, or twice
   */
  List<Exclusion> with(Stream stream, List<Exclusion> named) {
    List<Exclusion> all = new ArrayList<>(named);
    Set<UUID> known = named.stream().map(Exclusion::result).collect(Collectors.toSet());
    for (Signal signal : signals.explained(stream.id())) {
      Finding finding = Objects.requireNonNull(signal.finding(), "explained");
      for (UUID result : finding.exclude()) {
        if (known.add(result)) {
          all.add(new Exclusion(result, finding.cause(), signal.id()));
        }
      }
    }
    return all;
  }
}
