package org.sapotrace.bench;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A titration for one result, as it was typed.
 *
 * @param analyst who titrated; null where nobody said
 * @param readings what was read
 * @param throughput what had gone through by then; null where nobody said
 * @param inletMgPerKg the soap before the wash or tower in mg/kg, above 0; null where nobody said
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Titration(
    String batch,
    Instant sampledAt,
    @Nullable String analyst,
    Readings readings,
    @Nullable Throughput throughput,
    @Nullable Double inletMgPerKg)
    implements Entry {

  private static final double WHOLE_MG_PER_KG = 1e6;

  /** Refuses soap that cannot be with {@link IllegalArgumentException}. */
  public Titration {
    checkedInlet(inletMgPerKg);
  }

  /** Soap before a wash or tower, refused likewise where it cannot be. */
  public static @Nullable Double checkedInlet(@Nullable Double mgPerKg) {
    if (mgPerKg == null || (mgPerKg > 0 && mgPerKg <= WHOLE_MG_PER_KG)) {
      return mgPerKg;
    }
    throw new IllegalArgumentException(
        "The soap before a wash or tower is above 0 and at most 1 000 000 mg/kg: check the figure, or leave it out where nobody measured it.");
  }

  @Override
  public @Nullable String titrantLot() {
    return readings.titrant().lot();
  }
}
