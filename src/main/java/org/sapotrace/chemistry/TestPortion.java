package org.sapotrace.chemistry;

import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Temperature;
import org.sapotrace.measure.Volume;

/** The sample that one titration consumes. */
public sealed interface TestPortion {

  /** Its mass, by way of the density where it was measured out by volume. */
  Mass mass(SampleDensity density);

  /** A portion weighed on a balance. */
  record Weighed(Mass weighed) implements TestPortion {
    @Override
    public Mass mass(SampleDensity density) {
      return weighed;
    }
  }

  /** A portion measured out in a cylinder, at the temperature it then had. */
  record MeasuredOut(Volume volume, Temperature temperature) implements TestPortion {

    /** Refuses a volume of 0 mL with {@link IllegalArgumentException}. */
    public MeasuredOut {
      if (volume.millilitres() == 0) {
        throw new IllegalArgumentException(
            "The sample volume is 0 mL; give the volume that was titrated.");
      }
    }

    @Override
    public Mass mass(SampleDensity density) {
      return density.mass(volume, temperature);
    }

    /** The cylinder that is taken for it: the smallest one that holds it. */
    Glassware cylinder() {
      return Glassware.smallest(
          Glassware.Kind.MEASURING_CYLINDER, volume, "weigh the sample instead");
    }
  }
}
