package org.sapotrace.chemistry;

import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Verdict.Outcome;
import org.sapotrace.measure.Rounding;

/**
 * A specification at the place where it has to be met, which is what decides about a batch there.
 *
 * <p>A result with an uncertainty conforms if the true value meets the specification with a
 * probability of at least 0.95, does not conform at a probability of at most 0.05, and is
 * inconclusive otherwise (JCGM 106:2012, clause 8); so is a value found between limits that the
 * measurement cannot tell apart, and a titration below zero by more than its expanded uncertainty.
 * Without an uncertainty a result is compared as it is.
 *
 * @param samplingPoint where samples are taken
 * @param specification what they must meet
 * @param unit of limits and results in UCUM code, such as {@code mg/kg}
 */
public record Requirement(SamplingPoint samplingPoint, Specification specification, String unit) {

  private static final int MOST_FURTHER_REPLICATES = 20;

  /** Judges a titration. */
  public Verdict judge(Determination found) {
    String figure = figure(found.value(), found.budget().expandedUncertainty());
    String result =
        found.isBelowDetection()
            ? "A result below detection (" + figure + ")"
            : "A result of " + figure;
    double probability = probabilityMet(found, found.budget().standardUncertainty());
    if (found.value() < -found.budget().expandedUncertainty()) {
      return impossible(found.value(), probability, figure);
    }
    if (outcome(found.value(), probability) != Outcome.INCONCLUSIVE) {
      return settled(found.value(), probability, result);
    }
    Integer further = replicatesToDecide(found);
    return unsettled(found.value(), probability, result, further, replicatesInWords(further));
  }

  /**
   * Judges a value that was measured elsewhere.
   *
   * @param value finite
   * @param standardUncertainty of it, finite and at least 0
   * @param expandedUncertainty of it, as it is to be read, finite and at least 0
   */
  public Verdict judge(double value, double standardUncertainty, double expandedUncertainty) {
    String result = "A result of " + figure(value, expandedUncertainty);
    double probability = specification.probabilityMet(value, standardUncertainty);
    return outcome(value, probability) == Outcome.INCONCLUSIVE
        ? unsettled(value, probability, result, null, "test the sample again")
        : settled(value, probability, result);
  }

  /**
   * Compares a value of which no uncertainty is known.
   *
   * @param value finite
   */
  public Verdict compare(double value) {
    boolean isMet = specification.allows(value);
    SamplingPoint.Step step = isMet ? samplingPoint.whenMet() : remedy(value);
    String reason =
        "A result of %s, compared as it is because its uncertainty is not known, %s: %s."
            .formatted(withUnit(Rounding.of(value)), position(value), step.words());
    return new Verdict(
        isMet ? Outcome.CONFORMING : Outcome.NONCONFORMING,
        null,
        specification.decidingLimit(value),
        step.advice(),
        reason,
        0);
  }

  private Verdict settled(double value, double probability, String result) {
    Outcome outcome = outcome(value, probability);
    boolean isMet = outcome == Outcome.CONFORMING;
    SamplingPoint.Step step = isMet ? samplingPoint.whenMet() : remedy(value);
    String reason =
        "%s %s (chance of meeting it: %s), so %s."
            .formatted(result, position(value), Rounding.percent(probability), step.words());
    return new Verdict(
        outcome, probability, specification.decidingLimit(value), step.advice(), reason, 0);
  }

  private double probabilityMet(Determination found, double standardUncertainty) {
    return specification.probabilityMet(
        found.value(), standardUncertainty, found.budget().effectiveDegreesOfFreedom());
  }

  /** No sample holds less than nothing, so such a figure says nothing about the batch. */
  private Verdict impossible(double value, double probability, String figure) {
    return new Verdict(
        Outcome.INCONCLUSIVE,
        probability,
        specification.decidingLimit(value),
        Advice.RETEST,
        "A result of %s is below zero by more than its uncertainty, which no sample is: check the blank and the reading, and titrate again."
            .formatted(figure),
        null);
  }

  private Verdict unsettled(
      double value, double probability, String result, @Nullable Integer further, String words) {
    String reason =
        "%s is too close to %s to decide (chance of meeting it: %s), so %s."
            .formatted(result, limitInWords(value), Rounding.percent(probability), words);
    return new Verdict(
        Outcome.INCONCLUSIVE,
        probability,
        specification.decidingLimit(value),
        Advice.RETEST,
        reason,
        further);
  }

  /** The least number that settles it if the mean stays where it is; null if none up to 20 does. */
  private @Nullable Integer replicatesToDecide(Determination found) {
    for (int further = 1; further <= MOST_FURTHER_REPLICATES; further++) {
      double u = found.standardUncertaintyWithFurther(further);
      double probability = probabilityMet(found, u);
      if (outcome(found.value(), probability) != Outcome.INCONCLUSIVE) {
        return further;
      }
    }
    return null;
  }

  // Between two limits that lie closer together than the measurement can tell, every probability is
  // small. That is no evidence against a value found between them.
  private Outcome outcome(double value, double probability) {
    Outcome outcome = Outcome.of(probability);
    return outcome == Outcome.NONCONFORMING && specification.allows(value)
        ? Outcome.INCONCLUSIVE
        : outcome;
  }

  private static String replicatesInWords(@Nullable Integer further) {
    if (further == null) {
      return "titrate a larger test portion, as more replicates like these will not settle it";
    }
    return "titrate the same sample " + (further == 1 ? "once more" : further + " more times");
  }

  private SamplingPoint.Step remedy(double value) {
    return specification.isDecidedByUpper(value)
        ? samplingPoint.whenAbove()
        : samplingPoint.whenBelow();
  }

  private String position(double value) {
    if (specification.allows(value)) {
      return "meets " + limitInWords(value);
    }
    return (specification.isExceededBy(value) ? "is above " : "is below ") + limitInWords(value);
  }

  private String limitInWords(double value) {
    return "the %s limit of %s"
        .formatted(
            specification.isDecidedByUpper(value) ? "upper" : "lower",
            withUnit(Rounding.of(specification.decidingLimit(value))));
  }

  private String figure(double value, double expandedUncertainty) {
    return withUnit(Rounding.of(value, expandedUncertainty));
  }

  /** UCUM writes {@code 1} for a plain number, which people do not. */
  private String withUnit(String number) {
    return unit.equals("1") ? number : number + " " + unit;
  }
}
