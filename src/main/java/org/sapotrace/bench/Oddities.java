package org.sapotrace.bench;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.Glassware;
import org.sapotrace.chemistry.Replicate;
import org.sapotrace.chemistry.Requirement;
import org.sapotrace.chemistry.SampleTitration;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.chemistry.UsualTitration;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Rounding;

/**
 * What is odd about a titration. It may be right and is recorded; more often it is a slip.
 *
 * @param basis what it is computed with
 * @param titration what was titrated
 * @param named what it was titrated from; null where nobody said
 * @param typed the normality as it was typed; null for a lot on record, which has been looked at
 */
record Oddities(
    TitrationBasis basis,
    SampleTitration titration,
    @Nullable Glassware named,
    @Nullable Normality typed) {

  // A decimal point moves it by ten, and no bottle is that far off another of the same strength.
  private static final double FAR = 5;

  // By how much twice may be more or less, as two preparations differ, and as numbers are stored.
  private static final double ABOUT_TWICE = 0.2 + 1e-9;

  /** A sentence for each, the most serious first. */
  List<String> inWords() {
    return Stream.of(
            typed == null ? Optional.<String>empty() : normality(typed),
            portion(),
            limit(basis.requirement(), basis.analyte().metal()),
            freeAlkali(),
            reading())
        .flatMap(Optional::stream)
        .toList();
  }

  private Optional<String> normality(Normality now) {
    Double before = basis.normalityBefore();
    String jump =
        before == null || !basis.analyte().takesAcid()
            ? null
            : whatToCheck(now.molesPerLitre() / before);
    if (before != null && jump != null) {
      return Optional.of(
          "The normality is %s mol/L and was %s mol/L in the titration before: %s."
              .formatted(Rounding.of(now.molesPerLitre()), Rounding.of(before), jump));
    }
    return usual().takes(now)
        ? Optional.empty()
        : Optional.of(
            "A titrant of %s mol/L is unusual for %s (%s): check the decimal point and the bottle."
                .formatted(Rounding.of(now.molesPerLitre()), what(), usual().whichTitrants()));
  }

  private static @Nullable String whatToCheck(double ratio) {
    double factor = Math.max(ratio, 1 / ratio);
    if (factor >= FAR) {
      return "check the decimal point and the bottle";
    }
    return Math.abs(factor - 2) <= ABOUT_TWICE
        ? "check that neither is the molarity of a diprotic acid such as sulfuric, which is half its normality"
        : null;
  }

  private Optional<String> portion() {
    return titration.replicates().stream()
        .map(this::mass)
        .filter(mass -> !usual().takes(mass))
        .findFirst()
        .map(
            mass ->
                "A test portion of %s g is unusual for %s (%s): check the amount and its unit."
                    .formatted(Rounding.of(mass.grams()), what(), usual().whichPortions()));
  }

  /** What to say of a limit on soap that is meant for the other metal. */
  static Optional<String> limit(@Nullable Requirement requirement, @Nullable Alkali metal) {
    Double upper = requirement == null ? null : requirement.specification().upper();
    Double own = metal == null ? null : Specification.soapDefault(metal).upper();
    if (requirement == null || upper == null || metal == null || own == null) {
      return Optional.empty();
    }
    return Arrays.stream(Alkali.values())
        .filter(other -> other != metal && requirement.specification().isSoapDefaultOf(other))
        .findFirst()
        .map(
            other ->
                "The limit of %s mg/kg is the %s that holds 5 mg/kg of %s; the %s found here holds 5 mg/kg of %s at %s mg/kg: check which was meant."
                    .formatted(
                        Rounding.of(upper),
                        other.soapName(),
                        other.id(),
                        metal.soapName(),
                        metal.id(),
                        Rounding.of(own)));
  }

  private Optional<String> freeAlkali() {
    Alkali metal = basis.analyte().metal();
    SamplingPoint point = basis.samplingPoint();
    boolean mayBeThere = point == SamplingPoint.CRUDE || point == SamplingPoint.AFTER_WASH;
    if (metal == null
        || !mayBeThere
        || titration.replicates().stream().anyMatch(each -> each.freeAlkali() != null)) {
      return Optional.empty();
    }
    double read =
        100 * metal.soapMolarMass().gramsPerMole() / metal.hydroxideMolarMass().gramsPerMole();
    return Optional.of(
        "Free alkali was not titrated and counts as soap: 100 mg/kg of %s reads as %s mg/kg of %s."
            .formatted(metal.hydroxideFormula(), Rounding.of(Math.rint(read)), metal.soapName()));
  }

  private Optional<String> reading() {
    return named == null
        ? Optional.empty()
        : titration.replicates().stream()
            .filter(each -> named.isPoorFor(each.titrant()) && !isAsLargeAsSoapTakes(each))
            .findFirst()
            .map(
                each ->
                    "%s mL is less than 30 %% of what %s holds (common practice, no source): take more sample, a weaker titrant or finer glassware."
                        .formatted(Rounding.of(each.titrant().millilitres()), named.slug()));
  }

  /** Where little soap is hoped for, a sample of that size has done what a sample can. */
  private boolean isAsLargeAsSoapTakes(Replicate replicate) {
    return basis.analyte().takesAcid()
        && basis.samplingPoint() != SamplingPoint.CRUDE
        && mass(replicate).grams() >= UsualTitration.SOAP_PORTION_G;
  }

  private Mass mass(Replicate replicate) {
    return replicate.portion().mass(titration.density());
  }

  private UsualTitration usual() {
    return switch (basis.analyte().measurand()) {
      case ACID_NUMBER -> UsualTitration.ACID_NUMBER;
      case FREE_FATTY_ACID -> UsualTitration.FREE_FATTY_ACID;
      default ->
          basis.samplingPoint().hasSoapDefault() ? UsualTitration.WASHED_SOAP : UsualTitration.SOAP;
    };
  }

  private String what() {
    return basis.analyte().measurand().label();
  }
}
