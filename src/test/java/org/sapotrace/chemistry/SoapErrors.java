package org.sapotrace.chemistry;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
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
    RECTANGULAR,
    NORMAL;

    double draw(SplittableRandom random) {
      return switch (this) {
        case TRIANGULAR -> Math.sqrt(6) * (random.nextDouble() - random.nextDouble());
        case RECTANGULAR -> Math.sqrt(3) * (2 * random.nextDouble() - 1);
        case NORMAL -> random.nextGaussian();
      };
    }
  }

  /** One thing that may go wrong: the source it belongs to, and what it is like. */
  private record Mistake(String source, Shape shape) {}

  private final SampleTitration titration;
  private final List<Mistake> errors = new ArrayList<>();
  private final List<ToDoubleFunction<double[]>> replicates = new ArrayList<>();
  // What replicates scatter by beyond their other errors; known only when those are.
  private double rest;

  SoapErrors(SampleTitration titration) {
    this.titration = titration;
    Glassware glass = titration.glassware();
    double readingU = glass.graduationMl() / Math.sqrt(6);
    double toleranceU = glass.toleranceMl() / Math.sqrt(6);
    int tolerance = error("glassware tolerance", Shape.TRIANGULAR);
    int blankReading = error("blank reading", Shape.TRIANGULAR);
    int blankEndPoint = error("blank end point", Shape.NORMAL);
    int blankScatter = error("scatter of the blanks", Shape.NORMAL);
    int temperature = error("titrant temperature", Shape.RECTANGULAR);
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
      int scatter = error("repeatability beyond reading, end point and mass", Shape.NORMAL);
      replicates.add(
          e -> {
            double v =
                replicate.titrant().millilitres()
                    + e[reading] * readingU
                    + e[endPoint] * glass.endPointMl()
                    + e[tolerance] * toleranceU;
            double a = hasFreeAlkali ? free.millilitres() + e[first] * glass.endPointMl() : 0;
            double v0 =
                blank(titration.blank(), e[blankReading], e[blankEndPoint], e[blankScatter]);
            // Anything within 4 degC, at 0.021 % a degC.
            double expanded = 1 + e[temperature] * 4 * 2.1e-4 / Math.sqrt(3);
            double c =
                titration.titrant().quantity().molesPerLitre()
                    + e[normality] * titration.titrant().standardUncertainty();
            double m = mass(replicate.portion(), e[weighing], e[density], e[cylinder]);
            double found =
                (v - a - v0)
                    * expanded
                    * c
                    * Alkali.SODIUM.soapMolarMass().gramsPerMole()
                    * 1000
                    / m;
            return found + e[scatter] * rest;
          });
    }
    rest = rest();
  }

  private double rest() {
    Repeatability known = titration.repeatability();
    if (known == null) {
      return 0;
    }
    double n = titration.replicates().size();
    double explained =
        n
            * Stream.of("titrant reading", "end point", "first end point", "sample mass")
                .mapToDouble(this::effect)
                .map(each -> each * each)
                .sum();
    double scatter = known.standardDeviation();
    if (known.isProportional()) {
      scatter *= Math.abs(found(new double[errors.size()]));
    }
    return Math.sqrt(Math.max(0, scatter * scatter - explained));
  }

  private double blank(Blank blank, double reading, double endPoint, double scatter) {
    Glassware glass = titration.glassware();
    double readingU = glass.graduationMl() / Math.sqrt(6);
    double own = reading * readingU + endPoint * glass.endPointMl();
    if (blank instanceof Blank.None) {
      return 0;
    }
    if (blank instanceof Blank.MeanOf mean) {
      BlankSeries series = mean.series();
      double s = Math.max(series.standardDeviation(), readingU);
      return series.mean() + scatter * s / Math.sqrt(series.n());
    }
    Blank.Once once = (Blank.Once) blank;
    BlankSeries others = once.series();
    boolean scattersMore =
        others != null && others.standardDeviation() > Math.hypot(readingU, glass.endPointMl());
    return once.titrated().millilitres()
        + (scattersMore ? scatter * others.standardDeviation() : own);
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
