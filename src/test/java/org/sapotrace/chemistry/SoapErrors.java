package org.sapotrace.chemistry;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.sapotrace.chemistry.TestPortion.MeasuredOut;
import org.sapotrace.chemistry.TestPortion.Weighed;
import org.sapotrace.measure.Volume;

/**
 * The measurement model of soap by titration, as sodium oleate, written out with every error that
 * may be made, so that a budget can be checked without using the law it was computed by. Errors are
 * in multiples of their own standard uncertainty.
 */
final class SoapErrors {

  /** How an error is distributed, with mean 0 and standard deviation 1. */
  private enum Shape {
    // The tolerance by convention; the difference of two rectangular readings by nature.
    TRIANGULAR,
    NORMAL;

    double draw(SplittableRandom random) {
      return switch (this) {
        case TRIANGULAR -> Math.sqrt(6) * (random.nextDouble() - random.nextDouble());
        case NORMAL -> random.nextGaussian();
      };
    }
  }

  /** One thing that may go wrong: the source it belongs to, and what it is like. */
  private record Mistake(String source, Shape shape) {}

  private final SampleTitration titration;
  private final List<Mistake> errors = new ArrayList<>();
  private final List<ToDoubleFunction<double[]>> replicates = new ArrayList<>();

  SoapErrors(SampleTitration titration) {
    this.titration = titration;
    Glassware glass = titration.glassware();
    double readingU = glass.graduationMl() / Math.sqrt(6);
    double toleranceU = glass.toleranceMl() / Math.sqrt(6);
    int tolerance = error("glassware tolerance", Shape.TRIANGULAR);
    int blankReading = error("blank reading", Shape.TRIANGULAR);
    int blankEndPoint = error("blank end point", Shape.NORMAL);
    int normality = error("titrant normality", Shape.NORMAL);
    int density = error("sample density", Shape.NORMAL);
    int cylinder = error("sample volume", Shape.TRIANGULAR);
    for (Replicate replicate : titration.replicates()) {
      int reading = error("titrant reading", Shape.TRIANGULAR);
      int endPoint = error("end point", Shape.NORMAL);
      Volume free = replicate.freeAlkali();
      boolean hasFreeAlkali = free != null && free.millilitres() > 0;
      int first = hasFreeAlkali ? error("first end point", Shape.NORMAL) : -1;
      int weighing = error("sample mass", Shape.NORMAL);
      replicates.add(
          e -> {
            double v =
                replicate.titrant().millilitres()
                    + e[reading] * readingU
                    + e[endPoint] * glass.endPointMl()
                    + e[tolerance] * toleranceU;
            double a = hasFreeAlkali ? free.millilitres() + e[first] * glass.endPointMl() : 0;
            double v0 =
                titration.blank() == null
                    ? 0
                    : titration.blank().millilitres()
                        + e[blankReading] * readingU
                        + e[blankEndPoint] * glass.endPointMl();
            double c =
                titration.titrant().quantity().molesPerLitre()
                    + e[normality] * titration.titrant().standardUncertainty();
            double m = mass(replicate.portion(), e[weighing], e[density], e[cylinder]);
            return (v - a - v0) * c * Alkali.SODIUM.soapMolarMass().gramsPerMole() * 1000 / m;
          });
    }
  }

  private double mass(TestPortion portion, double weighing, double density, double cylinder) {
    if (portion instanceof Weighed weighed) {
      return weighed.weighed().grams() + weighing * titration.balance().standardUncertaintyG();
    }
    MeasuredOut measured = (MeasuredOut) portion;
    SampleDensity liquid = titration.density();
    double rho =
        liquid.atReference().quantity().kilogramsPerCubicMetre()
            + density * liquid.atReference().standardUncertainty()
            - 0.723 * (measured.temperature().celsius() - 15);
    double volume =
        measured.volume().millilitres()
            + cylinder * measured.cylinder().toleranceMl() / Math.sqrt(6);
    return volume * rho / 1000;
  }

  private int error(String source, Shape shape) {
    errors.add(new Mistake(source, shape));
    return errors.size() - 1;
  }

  /** What is found when these errors are made. */
  double found(double[] made) {
    return replicates.stream()
        .mapToDouble(each -> each.applyAsDouble(made))
        .average()
        .orElseThrow();
  }

  /** What is found when errors are made at random. */
  double found(SplittableRandom random) {
    return found(errors.stream().mapToDouble(each -> each.shape().draw(random)).toArray());
  }

  /** What a source adds to the standard uncertainty, by central differences. */
  double effect(String source) {
    double step = 1e-3;
    double variance = 0;
    for (int i = 0; i < errors.size(); i++) {
      if (errors.get(i).source().equals(source)) {
        double[] up = new double[errors.size()];
        double[] down = new double[errors.size()];
        up[i] = step;
        down[i] = -step;
        double derivative = (found(up) - found(down)) / (2 * step);
        variance += derivative * derivative;
      }
    }
    return Math.sqrt(variance);
  }

  /** What all sources add together, by central differences. */
  double effect() {
    return Math.sqrt(
        errors.stream()
            .map(Mistake::source)
            .distinct()
            .mapToDouble(this::effect)
            .map(each -> each * each)
            .sum());
  }
}
