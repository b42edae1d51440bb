package org.sapotrace.chemistry;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.TestPortion.MeasuredOut;
import org.sapotrace.chemistry.TestPortion.Weighed;
import org.sapotrace.measure.Density;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Temperature;
import org.sapotrace.measure.Volume;

/** Titrations to test with. */
final class Titrations {

  private Titrations() {}

  /** The soap found, as sodium oleate. */
  static Determination soap(SampleTitration titration) {
    return titration.soap(Alkali.SODIUM.soapMolarMass()).determine();
  }

  /** With the assumed burette and balance, an exact titrant and no blank. */
  static SampleTitration titration(double normality, Replicate... replicates) {
    return new SampleTitration(
        List.of(replicates),
        Blank.none(),
        Measured.exactly(new Normality(normality)),
        Glassware.assumed(),
        SampleDensity.assumedFuel(),
        Balance.assumed(),
        null);
  }

  static SampleTitration withBlank(SampleTitration titration, @Nullable Double blankMl) {
    return withBlank(titration, Blank.of(blankMl == null ? null : new Volume(blankMl)));
  }

  static SampleTitration withBlank(SampleTitration titration, Blank blank) {
    return new SampleTitration(
        titration.replicates(),
        blank,
        titration.titrant(),
        titration.glassware(),
        titration.density(),
        titration.balance(),
        titration.repeatability());
  }

  static SampleTitration withRepeatability(SampleTitration titration, Repeatability repeatability) {
    return new SampleTitration(
        titration.replicates(),
        titration.blank(),
        titration.titrant(),
        titration.glassware(),
        titration.density(),
        titration.balance(),
        repeatability);
  }

  static SampleTitration withTitrant(SampleTitration titration, Measured<Normality> titrant) {
    return new SampleTitration(
        titration.replicates(),
        titration.blank(),
        titrant,
        titration.glassware(),
        titration.density(),
        titration.balance(),
        titration.repeatability());
  }

  static SampleTitration withReplicates(SampleTitration titration, List<Replicate> replicates) {
    return new SampleTitration(
        replicates,
        titration.blank(),
        titration.titrant(),
        titration.glassware(),
        titration.density(),
        titration.balance(),
        titration.repeatability());
  }

  static Replicate weighed(double titrantMl, double sampleG) {
    return new Replicate(new Volume(titrantMl), new Weighed(new Mass(sampleG)));
  }

  static Replicate measuredOut(double titrantMl, double sampleMl, double sampleC) {
    return new Replicate(
        new Volume(titrantMl), new MeasuredOut(new Volume(sampleMl), new Temperature(sampleC)));
  }

  /** Fifty titrations of all sorts, always the same ones. */
  static Stream<SampleTitration> random() {
    SplittableRandom random = new SplittableRandom(20260305);
    return Stream.generate(() -> random(random)).limit(50);
  }

  private static SampleTitration random(SplittableRandom random) {
    List<Glassware> glassware = Glassware.forTitrant();
    boolean twoEndPoints = random.nextBoolean();
    return new SampleTitration(
        Stream.generate(() -> replicate(random, twoEndPoints)).limit(random.nextInt(1, 5)).toList(),
        blank(random),
        new Measured<>(
            new Normality(random.nextDouble(0.005, 0.1)),
            random.nextDouble(0, 1e-4),
            random.nextInt(2, 20)),
        glassware.get(random.nextInt(glassware.size())),
        SampleDensity.fuel(
            Measured.of(new Density(random.nextDouble(860, 900)), random.nextDouble(0, 15))),
        new Balance(random.nextDouble(0, 0.1)),
        random.nextBoolean() ? null : repeatability(random));
  }

  private static Blank blank(SplittableRandom random) {
    BlankSeries series =
        new BlankSeries(
            random.nextDouble(0, 0.3), random.nextDouble(0, 0.15), random.nextInt(10, 30));
    return switch (random.nextInt(4)) {
      case 0 -> Blank.none();
      case 1 -> Blank.of(new Volume(random.nextDouble(0, 0.3)));
      case 2 -> new Blank.Once(new Volume(random.nextDouble(0, 0.3)), series);
      default -> new Blank.MeanOf(series);
    };
  }

  private static Repeatability repeatability(SplittableRandom random) {
    return random.nextBoolean()
        ? new Repeatability(random.nextDouble(0, 100), false, random.nextInt(10, 40))
        : new Repeatability(random.nextDouble(0, 0.1), true, random.nextInt(10, 40));
  }

  private static Replicate replicate(SplittableRandom random, boolean twoEndPoints) {
    double titrantMl = random.nextDouble(0, 5);
    TestPortion portion =
        random.nextBoolean()
            ? weighed(titrantMl, random.nextDouble(5, 100)).portion()
            : measuredOut(titrantMl, random.nextDouble(6, 110), random.nextDouble(10, 50))
                .portion();
    // Now and then there is no free alkali to begin with.
    double free = random.nextInt(4) == 0 ? 0 : random.nextDouble(0, titrantMl);
    return new Replicate(new Volume(titrantMl), portion, twoEndPoints ? new Volume(free) : null);
  }
}
