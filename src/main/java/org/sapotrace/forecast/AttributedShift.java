package org.sapotrace.forecast;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Cause;
import org.sapotrace.attribution.Change;

/**
 * How much of the shift behind a signal each cause explains.
 *
 * @param asOf when it was asked
 * @param shift of the stream, in its unit; null where too little is known to tell one
 * @param unit of shift and parts, in UCUM code
 * @param change when and how it began; null likewise
 * @param parts of the shift, the largest first
 * @param cause the one that the evidence names
 * @param reason why, in a sentence
 * @param wanted the titration that would decide; null where none is needed, or none would
 */
public record AttributedShift(
    Instant asOf,
    @Nullable Double shift,
    String unit,
    @Nullable Course change,
    List<Part> parts,
    Cause cause,
    String reason,
    @Nullable String wanted) {

  /**
   * When and how it began.
   *
   * @param since the last sample before it
   * @param reason why it is taken for a step, or for a ramp
   */
  public record Course(Change.Shape shape, Instant since, String reason) {}

  /**
   * What one cause did.
   *
   * @param share of the shift; the shares add up to 1, and one may be negative
   * @param estimate of its part, in the unit
   * @param standardError of that, in the unit
   */
  public record Part(Cause cause, double share, double estimate, double standardError) {}

  public AttributedShift {
    parts = List.copyOf(parts);
  }

  /** Whether the evidence names a cause. */
  public boolean namesACause() {
    return cause != Cause.UNDECIDED;
  }
}
