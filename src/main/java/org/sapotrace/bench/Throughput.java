package org.sapotrace.bench;

import com.fasterxml.jackson.annotation.JsonInclude;
import org.jspecify.annotations.Nullable;

/**
 * What went through a tower since its bed was new, or a flush since it began, as it was typed; in
 * one unit or in both.
 *
 * @param litres in L, at least 0; null where nobody said
 * @param bedVolumes in volumes of the bed, at least 0; null likewise
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Throughput(@Nullable Double litres, @Nullable Double bedVolumes) {

  /** Beyond any tower: 1e9 L are a million tank trucks. */
  private static final double MOST = 1e9;

  /** Refuses what says nothing, or cannot be, with {@link IllegalArgumentException}. */
  public Throughput {
    if (litres == null && bedVolumes == null) {
      throw new IllegalArgumentException(
          "Say how much went through: in litres, in bedVolumes, or in both.");
    }
    checkedLitres(litres);
    checkedBedVolumes(bedVolumes);
  }

  /** What went through in L, refused likewise where it cannot be. */
  public static @Nullable Double checkedLitres(@Nullable Double litres) {
    return checked(litres, "litres");
  }

  /** What went through in volumes of the bed, refused likewise where it cannot be. */
  public static @Nullable Double checkedBedVolumes(@Nullable Double bedVolumes) {
    return checked(bedVolumes, "bed volumes");
  }

  private static @Nullable Double checked(@Nullable Double volume, String unit) {
    if (volume == null || (volume >= 0 && volume <= MOST)) {
      return volume;
    }
    throw new IllegalArgumentException(
        "What went through is 0 to 1 000 000 000 %s: check the figure.".formatted(unit));
  }
}
