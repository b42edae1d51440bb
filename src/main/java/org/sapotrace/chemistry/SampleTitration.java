package org.sapotrace.chemistry;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.TestPortion.MeasuredOut;
import org.sapotrace.chemistry.TestPortion.Weighed;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.MolarMass;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Rounding;

/**
 * The titration of a sample, to be expressed as what was titrated.
 *
 * <p>In the formulas V is the titrant up to the only or last of its end points, A the titrant up to
 * the first of two and V0 the blank, in mL; c is the normality in mol/L and m the test portion in
 * g. Each calculation is the mean over the replicates. It is refused with {@link
 * IllegalArgumentException} if the readings do not belong to it, if a test portion is less than 10
 * times its own uncertainty, or if it finds more than any sample can hold.
 *
 * @param replicates one or more titrations of the same sample
 * @param blank V0, what solvent and indicator alone consume up to the last end point
 * @param titrant c with its uncertainty, at 20 °C
 * @param glassware what sample and blank were titrated from
 * @param density of the sample, for portions measured out by volume
 * @param balance for portions that were weighed
 * @param repeatability how far titrations like these scatter at this bench, of the figure that is
 *     calculated; null where that is not known
 */
public record SampleTitration(
    List<Replicate> replicates,
    Blank blank,
    Measured<Normality> titrant,
    Glassware glassware,
    SampleDensity density,
    Balance balance,
    @Nullable Repeatability repeatability) {

  // AOCS Ca 5a-40 (from memory): the molar mass of oleic acid, 282 g/mol, in hundredths.
  static final double OLEIC_ACID_PER_CENT = 28.2;

  /**
   * Refuses with {@link IllegalArgumentException} a titration without replicates or from a piece
   * that delivers no titrant.
   */
  public SampleTitration {
    replicates = List.copyOf(replicates);
    if (replicates.isEmpty()) {
      throw new IllegalArgumentException("Give at least one titration.");
    }
    new NetTitrant(glassware, blank, Solvent.WATER);
  }

  /**
   * Soap in mg/kg, titrated with acid: (V - A - V0) c M 1000 / m. Everything titratable is found,
   * the soaps of calcium and magnesium with it and, without a first end point, any free alkali. The
   * acid is taken to be aqueous. Two end points are those of NREL/SR-510-36244 (from memory);
   * either all replicates have the first one or none.
   *
   * @param expressedAs M
   */
  public Calculation soap(MolarMass expressedAs) {
    long withFirst = replicates.stream().filter(each -> each.freeAlkali() != null).count();
    if (withFirst != 0 && withFirst != replicates.size()) {
      throw new IllegalArgumentException(
          "Give the first end point of every replicate or of none; it is 0 mL where there was no free alkali to begin with.");
    }
    NetTitrant net = new NetTitrant(glassware, blank, Solvent.WATER);
    ErrorModel<Replicate> model =
        expressed(
            net,
            (replicate, errors) ->
                net.net(replicate.titrant(), errors) - firstEndPointMl(replicate, errors),
            expressedAs.gramsPerMole() * 1000,
            WholeSample.MASS);
    if (replicates.stream().anyMatch(each -> each.freeAlkaliMl() > 0)) {
      model.with(ErrorSource.FIRST_END_POINT);
    }
    return model;
  }

  /**
   * Free alkali in mg/kg, titrated with acid to the first of two end points: A c M 1000 / m. No
   * blank is taken off: it is titrated to the last end point and counts there. A reading of 0 mL is
   * a result like any other, and no surer than an end point is.
   *
   * @param expressedAs the alkali, of whose hydroxide M is the molar mass
   */
  public Calculation freeAlkali(Alkali expressedAs) {
    if (replicates.stream().anyMatch(each -> each.freeAlkali() == null)) {
      throw new IllegalArgumentException(
          "Free alkali needs the first end point of every replicate; it is 0 mL where there was none to begin with.");
    }
    NetTitrant first = new NetTitrant(glassware, Blank.none(), Solvent.WATER);
    return expressed(
        first,
        (replicate, errors) -> first.net(Objects.requireNonNull(replicate.freeAlkali()), errors),
        expressedAs.hydroxideMolarMass().gramsPerMole() * 1000,
        WholeSample.MASS);
  }

  /**
   * The acid number in mg KOH/g, titrated with either alkali: (V - V0) c 56.105 / m. EN 14104, ASTM
   * D664 and D974 (from memory). The alkali is taken to be in alcohol, as EN 14104 has it.
   */
  public Calculation acidNumber() {
    return acidity(Alkali.POTASSIUM.hydroxideMolarMass().gramsPerMole(), WholeSample.ACIDITY);
  }

  /**
   * Free fatty acid in % as oleic acid: (V - V0) c 28.2 / m. AOCS Ca 5a-40 (from memory). The
   * alkali is taken to be in alcohol.
   */
  public Calculation freeFattyAcid() {
    return acidity(OLEIC_ACID_PER_CENT, WholeSample.PER_CENT);
  }

  private Calculation acidity(double factor, WholeSample whole) {
    if (replicates.stream().anyMatch(each -> each.freeAlkali() != null)) {
      throw new IllegalArgumentException(
          "Acidity is titrated to a single end point; leave out the free alkali.");
    }
    NetTitrant net = new NetTitrant(glassware, blank, Solvent.ALCOHOL);
    return expressed(
        net, (replicate, errors) -> net.net(replicate.titrant(), errors), factor, whole);
  }

  /** The titrant that counts, in mL. */
  private interface Counted {
    double millilitres(Replicate replicate, Errors errors);
  }

  private ErrorModel<Replicate> expressed(
      NetTitrant net, Counted counted, double factor, WholeSample whole) {
    ErrorModel.Formula<Replicate> unitsPerMl =
        (replicate, errors) -> normality(errors) * factor / mass(replicate.portion(), errors);
    ErrorModel<Replicate> model =
        new ErrorModel<>(
            replicates,
            (replicate, errors) ->
                counted.millilitres(replicate, errors)
                    * (net.expansion(errors) * unitsPerMl.value(replicate, errors)));
    replicates.forEach(each -> checkIsKnown(each.portion()));
    model.values().forEach(each -> checkIsPartOfASample(each, whole));
    net.addTo(model).with(ErrorSource.NORMALITY, titrant.degreesOfFreedom());
    model.scatteringBy(repeatability).detecting(detection(net, unitsPerMl));
    if (replicates.stream().anyMatch(each -> each.portion() instanceof Weighed)) {
      model.with(ErrorSource.SAMPLE_MASS);
    }
    if (replicates.stream().anyMatch(each -> each.portion() instanceof MeasuredOut)) {
      model.with(ErrorSource.SAMPLE_DENSITY, density.atReference().degreesOfFreedom());
      model.with(ErrorSource.SAMPLE_VOLUME);
    }
    return model;
  }

  /** By what a mL of titrant comes to on the mean of the replicates. */
  private @Nullable Detection detection(NetTitrant net, ErrorModel.Formula<Replicate> unitsPerMl) {
    double mean =
        replicates.stream()
            .mapToDouble(each -> unitsPerMl.value(each, new Errors()))
            .average()
            .orElseThrow();
    return net.blank().detection(glassware, mean).orElse(null);
  }

  // From A to V the scale is read twice, as it is from the start to V: the reading error of that
  // difference is the same. Where there was no free alkali, no first end point can err.
  private double firstEndPointMl(Replicate replicate, Errors errors) {
    double free = replicate.freeAlkaliMl();
    return free == 0 ? 0 : free + errors.of(ErrorSource.FIRST_END_POINT) * glassware.endPointMl();
  }

  private double normality(Errors errors) {
    return titrant.quantity().molesPerLitre()
        + errors.of(ErrorSource.NORMALITY) * titrant.standardUncertainty();
  }

  private double mass(TestPortion portion, Errors errors) {
    double mass = portion.mass(density).grams();
    if (portion instanceof MeasuredOut measured) {
      // m = V rho, so the relative errors of both carry over.
      double rho = density.at(measured.temperature()).kilogramsPerCubicMetre();
      double inDensity =
          errors.of(ErrorSource.SAMPLE_DENSITY) * density.atReference().standardUncertainty() / rho;
      double inVolume =
          errors.of(ErrorSource.SAMPLE_VOLUME)
              * measured.cylinder().calibrationMl()
              / measured.volume().millilitres();
      return mass * (1 + inDensity) * (1 + inVolume);
    }
    return mass + errors.of(ErrorSource.SAMPLE_MASS) * balance.standardUncertaintyG();
  }

  private void checkIsKnown(TestPortion portion) {
    if (portion instanceof MeasuredOut measured) {
      Certainty.check(
          "sample volume",
          measured.volume().millilitres(),
          measured.cylinder().calibrationMl(),
          "mL",
          "weigh the sample instead");
      Certainty.check(
          "density",
          density.at(measured.temperature()).kilogramsPerCubicMetre(),
          density.atReference().standardUncertainty(),
          "kg/m3",
          "check both and their unit, or weigh the sample instead");
      return;
    }
    Certainty.check(
        "test portion",
        portion.mass(density).grams(),
        balance.standardUncertaintyG(),
        "g",
        "weigh out more of the sample");
  }

  private static void checkIsPartOfASample(double value, WholeSample whole) {
    if (whole.holds(value)) {
      return;
    }
    throw new IllegalArgumentException(
        "The titration comes to %s %s, more than the sample itself: check volume, normality and sample."
            .formatted(Rounding.of(value), whole.unit()));
  }
}
