package org.sapotrace.bench;

import java.util.List;
import org.sapotrace.refusal.Refusal;

/**
 * What somebody says of a result on record. Nothing is overwritten: it becomes a new revision.
 *
 * @param reason why
 */
public record Correction(String reason, Change change) {

  /** What is to count from now on. */
  public sealed interface Change {

    /**
     * The entry that counts instead of the one before.
     *
     * @throws Refusal if this change does not go with what was entered
     */
    Entry appliedTo(Entry entered);
  }

  /** Another titration of the same sample, in place of what was entered. */
  public record Retitrated(Titration titration) implements Change {
    @Override
    public Entry appliedTo(Entry entered) {
      if (entered instanceof StandardisedTitrant) {
        throw ofStandardisation();
      }
      return titration;
    }
  }

  /**
   * Other values of a result that was measured elsewhere.
   *
   * @param values in the stream's unit
   */
  public record Remeasured(List<Double> values) implements Change {
    @Override
    public Entry appliedTo(Entry entered) {
      if (entered instanceof MeasuredElsewhere measured) {
        return measured.withValues(values);
      }
      if (entered instanceof StandardisedTitrant) {
        throw ofStandardisation();
      }
      throw Refusal.impossible(
          "#/values", "This result was titrated here: correct its titration, not its value.");
    }
  }

  private static Refusal ofStandardisation() {
    return Refusal.impossible("This result is a standardisation: withdraw it, and record it anew.");
  }

  /** Nothing: the result does not count. */
  public record Withdrawn() implements Change {
    @Override
    public Entry appliedTo(Entry entered) {
      return entered;
    }
  }
}
