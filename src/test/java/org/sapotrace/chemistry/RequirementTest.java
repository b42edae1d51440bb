package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.SamplingPoint.AFTER_WASH;
import static org.sapotrace.chemistry.Verdict.Outcome.CONFORMING;
import static org.sapotrace.chemistry.Verdict.Outcome.INCONCLUSIVE;
import static org.sapotrace.chemistry.Verdict.Outcome.NONCONFORMING;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.sapotrace.measure.Budget;
import org.sapotrace.measure.Contribution;

class RequirementTest {

  private static final double LIMIT = 66.2;

  // What each sampling point asks for: met, above an upper limit, below a lower one.
  @ParameterizedTest
  @CsvSource({
    "crude, release, hold, hold",
    "after-wash, release, rewash, hold",
    "after-dry-wash, release, rewash, hold",
    "storage, release, hold, hold",
    "flush-methanol, none, flush-on, hold",
    "check-standard, none, hold, hold",
    "blank, none, hold, hold",
    "other, release, hold, hold"
  })
  void advisesWhatHelpsAtTheSamplingPoint(String point, String met, String above, String below) {
    SamplingPoint at = SamplingPoint.named(point);
    Requirement atMost = new Requirement(at, new Specification(null, LIMIT), "mg/kg");
    Requirement atLeast = new Requirement(at, new Specification(LIMIT, null), "mg/kg");
    assertAdvice(atMost.judge(found(30, 2, 2)), CONFORMING, met);
    assertAdvice(atMost.judge(found(90, 2, 2)), NONCONFORMING, above);
    assertAdvice(atMost.judge(found(65, 2, 2)), INCONCLUSIVE, "retest");
    assertAdvice(atMost.compare(30), CONFORMING, met);
    assertAdvice(atMost.compare(90), NONCONFORMING, above);
    assertAdvice(atLeast.judge(found(90, 2, 2)), CONFORMING, met);
    assertAdvice(atLeast.judge(found(30, 2, 2)), NONCONFORMING, below);
    assertAdvice(atLeast.judge(found(65, 2, 2)), INCONCLUSIVE, "retest");
    assertAdvice(atLeast.compare(30), NONCONFORMING, below);
  }

  @ParameterizedTest
  @EnumSource
  void findsEachSamplingPointByItsName(SamplingPoint point) {
    assertThat(SamplingPoint.named(point.id())).isEqualTo(point);
  }

  @Test
  void rejectsOtherSamplingPoints() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> SamplingPoint.named("kettle"))
        .withMessage(
            "The sampling point \"kettle\" is not known; give one of crude, after-wash, after-dry-wash, storage, flush-methanol, check-standard, blank, other.");
  }

  @Test
  void appliesTheSoapDefaultToWhatHasBeenWashed() {
    assertThat(SamplingPoint.values())
        .filteredOn(SamplingPoint::hasSoapDefault)
        .extracting(SamplingPoint::id)
        .containsExactly("after-wash", "after-dry-wash", "storage");
  }

  // JCGM 106 rule, computed: with u = 6, p is 0.95 at 66.2 - 1.644854 * 6 = 56.33088.
  @ParameterizedTest
  @CsvSource({
    "56.3308, CONFORMING",
    "56.3310, INCONCLUSIVE",
    "76.0690, INCONCLUSIVE",
    "76.0692, NONCONFORMING"
  })
  void decidesAtNinetyFivePerCent(double value, Verdict.Outcome outcome) {
    assertThat(atMost(AFTER_WASH).judge(found(value, 6, 0)).outcome()).isEqualTo(outcome);
    assertThat(atMost(AFTER_WASH).judge(value, 6, 12).outcome()).isEqualTo(outcome);
  }

  // Computed: Phi((66.2 - 55) / 6) = 0.969.
  @Test
  void carriesProbabilityAndLimit() {
    Verdict verdict = atMost(AFTER_WASH).judge(55, 6, 12);
    assertThat(verdict.probabilityConforming()).isCloseTo(0.969, within(0.0005));
    assertThat(verdict.limit()).isEqualTo(LIMIT);
    assertThat(verdict.replicatesToDecide()).isZero();
  }

  @Test
  void saysWhyInOneSentence() {
    assertThat(atMost(AFTER_WASH).judge(found(35.1234, 1.632, 1)).reason())
        .isEqualTo(
            "A result of 35.1 ± 3.2 mg/kg meets the upper limit of 66.2 mg/kg (chance of meeting it: over 99 %), so release the batch to the next step.");
    assertThat(atMost(SamplingPoint.STORAGE).judge(found(75, 5, 1)).reason())
        .isEqualTo(
            "A result of 75.0 ± 9.8 mg/kg is above the upper limit of 66.2 mg/kg (chance of meeting it: 4 %), so hold the batch and do not ship it.");
    assertThat(atMost(SamplingPoint.FLUSH_METHANOL).judge(90, 2, 4).reason())
        .isEqualTo(
            "A result of 90.0 ± 4.0 mg/kg is above the upper limit of 66.2 mg/kg (chance of meeting it: under 1 %), so go on flushing the tower.");
    assertThat(atMost(AFTER_WASH).judge(60, 6, 12).reason())
        .isEqualTo(
            "A result of 60 ± 12 mg/kg is too close to the upper limit of 66.2 mg/kg to decide (chance of meeting it: 84 %), so test the sample again.");
  }

  @Test
  void saysThatNothingWasFound() {
    assertThat(atMost(AFTER_WASH).judge(found(-3.04, 12.49, 1)).reason())
        .isEqualTo(
            "A result below detection (-3 ± 24 mg/kg) meets the upper limit of 66.2 mg/kg (chance of meeting it: over 99 %), so release the batch to the next step.");
    assertThat(atMost(AFTER_WASH).judge(found(0, 50, 1)).reason())
        .startsWith("A result below detection (0 ± 98 mg/kg) is too close to the upper limit");
  }

  // Computed: U = 1.959964 * 6 = 11.75978.
  @ParameterizedTest
  @CsvSource({"-11.7597, CONFORMING", "-11.7599, INCONCLUSIVE"})
  void findsNothingOutFromATitrationBelowZeroByMoreThanItsUncertainty(
      double value, Verdict.Outcome outcome) {
    assertThat(atMost(AFTER_WASH).judge(found(value, 6, 5)).outcome()).isEqualTo(outcome);
    assertThat(atMost(AFTER_WASH).judge(value, 6, 11.75978).outcome()).isEqualTo(CONFORMING);
  }

  @Test
  void asksToCheckTheBlankWhereATitrationIsFarBelowZero() {
    Verdict verdict = atMost(AFTER_WASH).judge(found(-456.7, 4.745, 4));
    assertAdvice(verdict, INCONCLUSIVE, "retest");
    assertThat(verdict.replicatesToDecide()).isNull();
    assertThat(verdict.reason())
        .isEqualTo(
            "A result of -456.7 ± 9.3 mg/kg is below zero by more than its uncertainty, which no sample is: check the blank and the reading, and titrate again.");
  }

  @Test
  void comparesWhereNoUncertaintyIsKnownAndSaysSo() {
    Verdict met = atMost(AFTER_WASH).compare(LIMIT);
    assertThat(met.outcome()).isEqualTo(CONFORMING);
    assertThat(met.probabilityConforming()).isNull();
    assertThat(met.replicatesToDecide()).isZero();
    assertThat(met.reason())
        .isEqualTo(
            "A result of 66.2 mg/kg, compared as it is because its uncertainty is not known, meets the upper limit of 66.2 mg/kg: release the batch to the next step.");
    Verdict above = atMost(AFTER_WASH).compare(Math.nextUp(LIMIT));
    assertThat(above.outcome()).isEqualTo(NONCONFORMING);
    assertThat(above.probabilityConforming()).isNull();
  }

  @Test
  void leavesOutTheUnitOfAPlainNumber() {
    Requirement removal = new Requirement(SamplingPoint.OTHER, new Specification(1.5, null), "1");
    assertThat(removal.compare(1.2).reason())
        .isEqualTo(
            "A result of 1.2, compared as it is because its uncertainty is not known, is below the lower limit of 1.5: hold it until the cause is known.");
  }

  // Computed: one replicate, u = 6, of which 5 shrinks and sqrt(11) stays: p = 0.9442 at first;
  // with one more u = sqrt(11 + 12.5) = 4.848 and p = Phi(9.55 / 4.848) = 0.9756.
  @Test
  void asksForOneMoreReplicateWhereThatSettlesIt() {
    Verdict verdict = atMost(AFTER_WASH).judge(found(56.65, 6, 5));
    assertThat(verdict.outcome()).isEqualTo(INCONCLUSIVE);
    assertThat(verdict.replicatesToDecide()).isEqualTo(1);
    assertThat(verdict.reason()).endsWith("so titrate the same sample once more.");
  }

  // Computed: the least k with Phi((66.2 - y) / sqrt(4 + s^2 / (1 + k))) outside 0.05 to 0.95.
  @ParameterizedTest
  @CsvSource({"60, 5, 2", "62, 3, 3", "72, 7, 5", "60, 9, 7", "61, 10, 16", "70, 5, 18"})
  void asksForTheLeastNumberThatSettlesIt(double value, double shrinking, int further) {
    Verdict verdict = atMost(AFTER_WASH).judge(found(value, Math.hypot(shrinking, 2), shrinking));
    assertThat(verdict.outcome()).isEqualTo(INCONCLUSIVE);
    assertThat(verdict.replicatesToDecide()).isEqualTo(further);
    assertThat(verdict.reason()).endsWith("so titrate the same sample " + further + " more times.");
  }

  @Test
  void asksForALargerPortionWhereNoNumberOfReplicatesSettlesIt() {
    Verdict verdict = atMost(AFTER_WASH).judge(found(60, 6, 1));
    assertThat(verdict.outcome()).isEqualTo(INCONCLUSIVE);
    assertThat(verdict.replicatesToDecide()).isNull();
    assertThat(verdict.reason())
        .endsWith(
            "so titrate a larger test portion, as more replicates like these will not settle it.");
  }

  // Computed: p = 2 * 0.02 / sqrt(2 pi) = 0.016, yet the value lies in the middle.
  @Test
  void findsNothingAgainstAValueBetweenLimitsThatItCannotTellApart() {
    Requirement between =
        new Requirement(SamplingPoint.STORAGE, new Specification(10.0, 14.0), "mg/kg");
    Verdict verdict = between.judge(found(12, 100, 1));
    assertThat(verdict.probabilityConforming()).isCloseTo(0.016, within(0.0005));
    assertAdvice(verdict, INCONCLUSIVE, "retest");
    assertAdvice(between.judge(12, 100, 200), INCONCLUSIVE, "retest");
    assertAdvice(between.judge(found(300, 100, 1)), NONCONFORMING, "hold");
  }

  @Test
  void doesNotKnowHowManyReplicatesSettleWhatWasMeasuredElsewhere() {
    assertThat(atMost(AFTER_WASH).judge(60, 6, 12).replicatesToDecide()).isNull();
  }

  private static Requirement atMost(SamplingPoint point) {
    return new Requirement(point, new Specification(null, LIMIT), "mg/kg");
  }

  /** One replicate with standard uncertainty u, of which a part shrinks with further ones. */
  private static Determination found(double value, double u, double shrinking) {
    Budget budget = new Budget(List.of(Contribution.of("all sources", u)));
    return new Determination(value, List.of(value), budget, shrinking * shrinking);
  }

  private static void assertAdvice(Verdict verdict, Verdict.Outcome outcome, String advice) {
    assertThat(verdict.outcome()).isEqualTo(outcome);
    assertThat(verdict.advice().id()).isEqualTo(advice);
  }
}
