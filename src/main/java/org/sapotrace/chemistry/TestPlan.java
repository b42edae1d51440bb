package org.sapotrace.chemistry;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.sapotrace.chemistry.TestPortion.Weighed;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.Volume;

/**
 * How to titrate soap so that a figure is good enough to decide on.
 *
 * <p>It is foreseen with the budget of {@link SampleTitration#soap} for a weighed sample, a titrant
 * standardised to 0.2 %, and a blank of 0.1 mL titrated once (assumptions). Of the usual titrants,
 * the weakest is taken of which one filling is enough.
 *
 * @param glassware what is titrated from
 * @param sampleG the test portion, in g
 * @param normality of the titrant
 * @param replicates how many titrations
 * @param expandedUncertainty what to expect of their mean, in mg/kg, for a coverage of 95 %
 * @param isGoodEnough whether that is at most what was wanted
 * @param reason why this is the plan, in one sentence
 */
public record TestPlan(
    Glassware glassware,
    double sampleG,
    Normality normality,
    int replicates,
    double expandedUncertainty,
    boolean isGoodEnough,
    String reason) {

  private static final List<Double> SAMPLES_G = List.of(5.0, 10.0, 20.0, 40.0, 100.0);
  private static final List<Double> NORMALITIES = List.of(0.01, 0.1);
  private static final double NORMALITY_UNCERTAINTY = 0.002;
  private static final double BLANK_ML = 0.1;
  private static final int MOST_REPLICATES = 6;

  /**
   * The least work that is good enough: a larger sample costs nothing but solvent, so that the
   * sample is raised up to 100 g before a second titration is asked for. Where nothing is good
   * enough, the best there is.
   *
   * @param alkali whose oleate soap is expressed as
   * @param level the soap to expect, in mg/kg, from 0 to 1 000 000, both included
   * @param wanted the expanded uncertainty wanted, in mg/kg, more than 0
   * @throws IllegalArgumentException for what is outside its range, and where no sample's titrant
   *     fits into one filling
   */
  public static TestPlan of(Alkali alkali, double level, double wanted, Glassware glassware) {
    if (!(level >= 0 && level <= 1e6)) {
      throw new IllegalArgumentException("The level must be from 0 to 1000000 mg/kg.");
    }
    if (!(wanted > 0 && wanted < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "The wanted expanded uncertainty must be a number of more than 0 mg/kg.");
    }
    List<TestPlan> plans = new ArrayList<>();
    for (int n = 1; n <= MOST_REPLICATES; n++) {
      for (double sampleG : SAMPLES_G) {
        Optional<TestPlan> plan = plan(alkali, level, wanted, glassware, sampleG, n);
        if (plan.isPresent() && plan.get().isGoodEnough) {
          return plan.get();
        }
        plan.ifPresent(plans::add);
      }
    }
    if (plans.isEmpty()) {
      throw new IllegalArgumentException(
          "At %s mg/kg the titrant does not fit into one filling of %s; name a larger one."
              .formatted(Rounding.of(level), glassware.slug()));
    }
    return Collections.min(plans, Comparator.comparingDouble(TestPlan::expandedUncertainty));
  }

  /**
   * The plans for the other pieces that titrant is delivered from, where one filling is enough;
   * those that are good enough first, then by the work they take.
   *
   * @throws IllegalArgumentException for what is outside its range
   */
  public static List<TestPlan> alternatives(
      Alkali alkali, double level, double wanted, Glassware glassware) {
    return Glassware.forTitrant().stream()
        .filter(each -> !each.equals(glassware))
        .filter(each -> titrant(alkali, level, SAMPLES_G.get(0), each).isPresent())
        .map(each -> of(alkali, level, wanted, each))
        .sorted(
            Comparator.comparing(TestPlan::isGoodEnough)
                .reversed()
                .thenComparingInt(TestPlan::replicates)
                .thenComparingDouble(TestPlan::sampleG))
        .toList();
  }

  private static Optional<TestPlan> plan(
      Alkali alkali, double level, double wanted, Glassware glassware, double sampleG, int n) {
    return titrant(alkali, level, sampleG, glassware)
        .map(
            normality -> {
              double expected =
                  expandedUncertainty(alkali, level, normality, glassware, sampleG, n);
              return new TestPlan(
                  glassware,
                  sampleG,
                  normality,
                  n,
                  expected,
                  expected <= wanted,
                  reason(expected, wanted, sampleG, n));
            });
  }

  private static double expandedUncertainty(
      Alkali alkali, double level, Normality c, Glassware glassware, double sampleG, int n) {
    Replicate replicate =
        new Replicate(
            new Volume(titrantMl(alkali, level, sampleG, c)), new Weighed(new Mass(sampleG)));
    return new SampleTitration(
            Collections.nCopies(n, replicate),
            Blank.of(new Volume(BLANK_ML)),
            Measured.of(c, NORMALITY_UNCERTAINTY * c.molesPerLitre()),
            glassware,
            SampleDensity.assumedFuel(),
            Balance.assumed(),
            null)
        .soap(alkali.soapMolarMass())
        .determine()
        .budget()
        .expandedUncertainty();
  }

  /** The weakest titrant of which one filling is enough; none if that is so of no titrant. */
  private static Optional<Normality> titrant(
      Alkali alkali, double level, double sampleG, Glassware glassware) {
    return NORMALITIES.stream()
        .map(Normality::new)
        .filter(c -> titrantMl(alkali, level, sampleG, c) <= glassware.capacityMl())
        .findFirst();
  }

  /** V = V0 + soap m / (c M 1000), in mL. */
  private static double titrantMl(Alkali alkali, double level, double sampleG, Normality c) {
    double perMl = c.molesPerLitre() * alkali.soapMolarMass().gramsPerMole() * 1000 / sampleG;
    return BLANK_ML + level / perMl;
  }

  private static String reason(double expected, double wanted, double sampleG, int n) {
    String how =
        "%s of %s g".formatted(n == 1 ? "one titration" : n + " titrations", Rounding.of(sampleG));
    if (expected > wanted) {
      return "Nothing reaches ± %s mg/kg with this glassware; the best there is: %s."
          .formatted(Rounding.of(wanted), how);
    }
    return n == 1
        ? "It takes %s to be sure to ± %s mg/kg; a smaller sample leaves more to the reading."
            .formatted(how, Rounding.of(wanted))
        : "The largest sample alone does not reach ± %s mg/kg, so it takes %s."
            .formatted(Rounding.of(wanted), how);
  }
}
