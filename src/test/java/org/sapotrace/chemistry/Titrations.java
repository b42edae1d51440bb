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
        null,
        Measured.exactly(new Normality(normality)),
        Glassware.assumed(),
        SampleDensity.assumedFuel(),
        Balance.assumed());
  }

  static SampleTitration withBlank(SampleTitration titration, @Nullable Double blankMl) {
    return new SampleTitration(
        titration.replicates(),
        blankMl == null ? null : new Volume(blankMl),
        titration.titrant(),
        titration.glassware(),
        titration.density(),
        titration.balance());
  }

  static SampleTitration withReplicates(SampleTitration titration, List<Replicate> replicates) {
    return new SampleTitration(
        replicates,
        titration.blank(),
        titration.titrant(),
        titration.glassware(),
        titration.density(),
        titration.balance());
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
        random.nextBoolean() ? null : new Volume(random.nextDouble(0, 0.3)),
        new Measured<>(
            new Normality(random.nextDouble(0.005, 0.1)),
            random.nextDouble(0, 1e-4),
            random.nextInt(2, 20)),
        glassware.get(random.nextInt(glassware.size())),
        SampleDensity.fuel(
            Measured.of(new Density(random.nextDouble(860, 900)), random.nextDouble(0, 15))),
        new Balance(random.nextDouble(0, 0.1)));
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
