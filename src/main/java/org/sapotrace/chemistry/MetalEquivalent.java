package org.sapotrace.chemistry;

/**
 * The metal that soap holds, and the soap that a metal stands for. Fuel standards limit the metal;
 * the titration finds the soap.
 *
 * <p>One mole of soap holds one mole of metal, so w(metal) = w(soap) M(metal) / M(soap). 5 mg/kg of
 * sodium is 66.2 mg/kg of sodium oleate, 5 mg/kg of potassium 41.0 mg/kg of potassium oleate.
 */
public final class MetalEquivalent {

  private MetalEquivalent() {}

  /**
   * The metal in that much soap, in mg/kg.
   *
   * @param soapMgPerKg soap expressed as the oleate of the alkali, in mg/kg; keeps its sign
   */
  public static double metal(Alkali alkali, double soapMgPerKg) {
    return soapMgPerKg * metalFraction(alkali);
  }

  /**
   * The soap that holds that much metal, in mg/kg, expressed as the oleate of the alkali.
   *
   * @param metalMgPerKg the metal in mg/kg; keeps its sign
   */
  public static double soap(Alkali alkali, double metalMgPerKg) {
    return metalMgPerKg / metalFraction(alkali);
  }

  private static double metalFraction(Alkali alkali) {
    return alkali.metalMolarMass().gramsPerMole() / alkali.soapMolarMass().gramsPerMole();
  }
}
