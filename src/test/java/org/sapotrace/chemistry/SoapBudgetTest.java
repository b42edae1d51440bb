package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Titrations.soap;
import static org.sapotrace.chemistry.Titrations.weighed;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.chemistry.Glassware.Kind;
import org.sapotrace.measure.Budget;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.MonteCarlo;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Volume;
import org.sapotrace.testing.ChemistryReference;

class SoapBudgetTest {

  private static final int TRIALS = 100_000;

  static Stream<SampleTitration> titrations() {
    return Titrations.random();
  }

  @Test
  void reproducesTheWorkedBudget() {
    JsonNode example = ChemistryReference.entry("soapBudget");
    double endPoint = number(example, "endPointU");
    assertThat(number(example, "blankEndPointU")).isEqualTo(endPoint);
    Glassware withoutReading =
        new Glassware(
            "worked-example",
            Kind.BURETTE,
            25,
            0,
            "A",
            number(example, "buretteTriangularHalfWidth"),
            endPoint,
            "worked example",
            "computed");
    SampleTitration titration =
        new SampleTitration(
            List.of(weighed(number(example, "V"), example.required("m").get(0).doubleValue())),
            Blank.of(new Volume(number(example, "V0"))),
            Measured.of(
                new Normality(example.required("c").get(0).doubleValue()),
                example.required("c").get(1).doubleValue()),
            withoutReading,
            SampleDensity.assumedFuel(),
            new Balance(example.required("m").get(1).doubleValue()),
            null);

    Budget budget = soap(titration).budget();

    assertThat(soap(titration).value()).isCloseTo(608.9, within(0.05));
    // The example leaves the temperature out. Computed with it: hypot(12.49, 608.9 x 0.000485).
    assertThat(withoutTemperature(budget)).isCloseTo(number(example, "u"), within(0.005));
    assertThat(budget.standardUncertainty()).isCloseTo(12.4935, within(0.005));
    // The 95 % interval of the example's own Monte Carlo, [584.4, 633.3].
    assertThat(budget.expandedUncertainty()).isCloseTo((633.3 - 584.4) / 2, within(0.1));
    MonteCarlo drawn = titration.soap(Alkali.SODIUM.soapMolarMass()).propagate(20260308);
    // Stable to half a unit in the second digit of u.
    assertThat(drawn.standardUncertainty()).isCloseTo(number(example, "u"), within(0.5));
    assertThat(drawn.lower()).isCloseTo(584.4, within(0.5));
    assertThat(drawn.upper()).isCloseTo(633.3, within(0.5));
    assertThat(drawn.disagreesWith(608.9, budget)).isFalse();
  }

  @ParameterizedTest
  @MethodSource("titrations")
  void hasTheSensitivitiesOfTheFormula(SampleTitration titration) {
    SoapErrors errors = new SoapErrors(titration);
    Budget budget = soap(titration).budget();
    for (Contribution each : budget.contributions()) {
      assertThat(each.standardUncertainty())
          .as(each.source())
          .isCloseTo(errors.effect(each.source()), within(1e-5 * budget.standardUncertainty()));
    }
    // Nothing that can go wrong is left out.
    assertThat(budget.standardUncertainty())
        .isCloseTo(errors.effect(), within(1e-5 * budget.standardUncertainty()));
  }

  @ParameterizedTest
  @MethodSource("titrations")
  void tellsApartWhatMoreReplicatesCanShrink(SampleTitration titration) {
    SoapErrors errors = new SoapErrors(titration);
    double shrinking =
        Stream.of(
                "titrant reading",
                "end point",
                "first end point",
                "sample mass",
                "repeatability beyond reading, end point and mass")
            .mapToDouble(errors::effect)
            .map(each -> each * each)
            .sum();
    assertThat(soap(titration).shrinkingVariance()).isCloseTo(shrinking, within(1e-5 * shrinking));
  }

  // The errors are normal or narrower, so the standard error of the standard deviation s found in n
  // trials is at most s / sqrt(2 n); 4.5 of them are passed once in 150 000 times.
  @ParameterizedTest
  @MethodSource("titrations")
  void agreesWithRandomErrors(SampleTitration titration) {
    SoapErrors errors = new SoapErrors(titration);
    SplittableRandom random = new SplittableRandom(20260307);
    double[] found = new double[TRIALS];
    for (int i = 0; i < TRIALS; i++) {
      found[i] = errors.found(random);
    }
    double mean = mean(found);
    double sd = 0;
    for (double each : found) {
      sd += (each - mean) * (each - mean);
    }
    sd = Math.sqrt(sd / (TRIALS - 1));

    Determination determination = soap(titration);
    double u = determination.budget().standardUncertainty();
    assertThat(sd).isCloseTo(u, within(4.5 * u / Math.sqrt(2.0 * TRIALS)));
    // The mean of 1/m is not 1/mean: allow for the square of the relative uncertainty.
    assertThat(mean)
        .isCloseTo(
            determination.value(),
            within(4.5 * u / Math.sqrt(TRIALS) + 1e-3 * Math.abs(determination.value())));
  }

  private static double withoutTemperature(Budget budget) {
    return Math.sqrt(
        budget.contributions().stream()
            .filter(each -> !each.source().equals("titrant temperature"))
            .mapToDouble(each -> each.standardUncertainty() * each.standardUncertainty())
            .sum());
  }

  private static double mean(double[] values) {
    double sum = 0;
    for (double each : values) {
      sum += each;
    }
    return sum / values.length;
  }

  private static double number(JsonNode example, String name) {
    return example.required(name).doubleValue();
  }
}
