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
import org.sapotrace.measure.MolarMass;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Temperature;
import org.sapotrace.measure.Volume;

/** Titrations to test with. */
final class Titrations {

  private Titrations() {}

  /** With the assumed burette and balance, an exact titrant and no blank. */
  static SoapTitration soap(double normality, Alkali alkali, Replicate... replicates) {
    return new SoapTitration(
        List.of(replicates),
        null,
        Measured.exactly(new Normality(normality)),
        alkali.soapMolarMass(),
        Glassware.assumed(),
        SampleDensity.assumedFuel(),
        Balance.assumed());
  }

  static SoapTitration withBlank(SoapTitration titration, @Nullable Double blankMl) {
    return new SoapTitration(
        titration.replicates(),
        blankMl == null ? null : new Volume(blankMl),
        titration.titrant(),
        titration.expressedAs(),
        titration.glassware(),
        titration.density(),
        titration.balance());
  }

  static SoapTitration withReplicates(SoapTitration titration, List<Replicate> replicates) {
    return new SoapTitration(
        replicates,
        titration.blank(),
        titration.titrant(),
        titration.expressedAs(),
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
  static Stream<SoapTitration> random() {
    SplittableRandom random = new SplittableRandom(20260305);
    return Stream.generate(() -> random(random)).limit(50);
  }

  private static SoapTitration random(SplittableRandom random) {
    List<Glassware> glassware = Glassware.forTitrant();
    boolean twoEndPoints = random.nextBoolean();
    return new SoapTitration(
        Stream.generate(() -> replicate(random, twoEndPoints)).limit(random.nextInt(1, 5)).toList(),
        random.nextBoolean() ? null : new Volume(random.nextDouble(0, 0.3)),
        new Measured<>(
            new Normality(random.nextDouble(0.005, 0.1)),
            random.nextDouble(0, 1e-4),
            random.nextInt(2, 20)),
        new MolarMass(random.nextDouble(280, 330)),
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
