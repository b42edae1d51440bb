package org.sapotrace.chemistry;

import org.sapotrace.measure.Density;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Temperature;
import org.sapotrace.measure.Volume;

/**
 * The density of a sample, for test portions measured out by volume: rho(T) = rho_0 - s (T - T_0).
 *
 * <p>The slope is taken as exact, so that the uncertainty of rho(T) is that of rho_0.
 *
 * @param atReference rho_0 with its standard uncertainty, in kg/m3
 * @param reference T_0, in degrees Celsius
 * @param slope s, in kg/m3 per degree Celsius
 */
public record SampleDensity(Measured<Density> atReference, Temperature reference, double slope) {

  // EN 14214, annex on the density of fatty acid methyl esters (from memory). It was measured there
  // between 20 and 60 degC.
  private static final double FUEL_SLOPE = 0.723;

  // Pure methanol: 0.7914 g/mL at 20 degC and -0.00094 g/mL per degC (from memory). The standard
  // uncertainty is an assumption: what comes off a tower also carries some fuel and glycerin.
  private static final double METHANOL_AT_20 = 791.4;
  private static final double METHANOL_SLOPE = 0.94;
  private static final double METHANOL_UNCERTAINTY = 5;

  /** Refuses a slope that is not a number with {@link IllegalArgumentException}. */
  public SampleDensity {
    if (!Double.isFinite(slope)) {
      throw new IllegalArgumentException("The change of density with temperature is no number.");
    }
  }

  /** Biodiesel, from its density at 15 degC. */
  public static SampleDensity fuel(Measured<Density> at15) {
    return new SampleDensity(at15, new Temperature(15), FUEL_SLOPE);
  }

  /** Biodiesel of unknown density: 880 kg/m3 at 15 degC with a standard uncertainty of 10 kg/m3. */
  public static SampleDensity assumedFuel() {
    return fuel(Measured.of(new Density(880), 10));
  }

  /** Methanol recovered from flushing a tower. */
  public static SampleDensity methanol() {
    return new SampleDensity(
        Measured.of(new Density(METHANOL_AT_20), METHANOL_UNCERTAINTY),
        new Temperature(20),
        METHANOL_SLOPE);
  }

  /** The density at a temperature. */
  public Density at(Temperature temperature) {
    return new Density(
        atReference.quantity().kilogramsPerCubicMetre()
            - slope * (temperature.celsius() - reference.celsius()));
  }

  /** The mass of a volume at a temperature: m = V rho(T). */
  public Mass mass(Volume volume, Temperature temperature) {
    return new Mass(volume.millilitres() * at(temperature).kilogramsPerCubicMetre() / 1000);
  }
}
