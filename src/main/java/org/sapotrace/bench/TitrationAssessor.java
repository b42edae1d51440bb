package org.sapotrace.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Balance;
import org.sapotrace.chemistry.BenchBalance;
import org.sapotrace.chemistry.Blank;
import org.sapotrace.chemistry.BlankSeries;
import org.sapotrace.chemistry.Detection;
import org.sapotrace.chemistry.Determination;
import org.sapotrace.chemistry.Glassware;
import org.sapotrace.chemistry.SampleTitration;
import org.sapotrace.chemistry.Solvent;
import org.sapotrace.chemistry.UsualTitration;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.Volume;
import org.sapotrace.refusal.Refusal;

/** Turns the readings of a titration into a figure and a verdict, naming every default. */
final class TitrationAssessor {

  static final String NO_BLANK = "No blank was given: 0 mL was taken.";
  static final String NO_GLASSWARE =
      "No glassware was named: a 25 mL class A burette was taken for the budget.";

  // With fewer blanks s0 is so uncertain that it may be half of what it should be or less.
  private static final int LEAST_FOR_SCATTER = 10;

  private TitrationAssessor() {}

  /**
   * Assesses readings.
   *
   * @param lot the strength of the lot that the readings name; null where they name none
   * @param propagation null for variances
   * @throws Refusal pointing at the reading that cannot be true
   */
  static Assessment assess(
      Readings readings,
      TitrationBasis basis,
      @Nullable LotStrength lot,
      @Nullable Propagation propagation) {
    Analyte analyte = basis.analyte();
    if (lot != null) {
      UsedTitrant.checkTitrates(analyte, lot);
    }
    Glassware glassware = glassware(readings.glassware());
    Glassware named = readings.glassware() == null ? null : glassware;
    SampleTitration titration =
        new SampleTitration(
            TypedReplicates.read(readings, named, basis.density()),
            blank(readings.blankMl(), named, basis),
            lot == null ? typed(readings.titrant()) : lot.normality(),
            glassware,
            basis.density(),
            balance(readings.balance(), Balance.assumed()),
            basis.repeatability());
    Reported reported =
        Reported.of(
            Refusal.at("#/replicates", () -> analyte.calculation().apply(titration)),
            propagation,
            analyte.unit(),
            basis.pooled());
    return new Assessment(
        Figure.of(reported, analyte.metal()),
        reported.determination().isBelowDetection(),
        reported.judge(basis.requirement()),
        lot == null ? null : UsedTitrant.of(lot),
        cautions(
            readings,
            lot,
            reported,
            new Oddities(
                basis, titration, named, lot == null ? titration.titrant().quantity() : null)));
  }

  /** The blank that was read, with what others say of its scatter, or else their mean. */
  private static Blank blank(
      @Nullable Double blankMl, @Nullable Glassware named, TitrationBasis basis) {
    Volume titrated = blank(blankMl, named);
    BlankSeries known = basis.blanks();
    if (titrated == null) {
      return known == null ? Blank.none() : Refusal.at("#/blankMl", () -> new Blank.MeanOf(known));
    }
    return new Blank.Once(titrated, known != null && known.n() >= LEAST_FOR_SCATTER ? known : null);
  }

  /** The piece of that name, or the one that is assumed where none was named. */
  static Glassware glassware(@Nullable String slug) {
    if (slug == null) {
      return Glassware.assumed();
    }
    Glassware named = Refusal.at("#/glassware", () -> Glassware.named(slug));
    if (!named.kind().deliversTitrant()) {
      throw Refusal.impossible(
          "#/glassware", "A %s delivers no titrant.".formatted(named.kind().label()));
    }
    return named;
  }

  /** The balance of that name, or the one that is assumed where none was named. */
  static Balance balance(@Nullable String slug, Balance assumed) {
    return slug == null
        ? assumed
        : Refusal.at("#/balance", () -> BenchBalance.named(slug).balance());
  }

  static @Nullable Volume blank(@Nullable Double blankMl, @Nullable Glassware named) {
    return blankMl == null ? null : TypedReplicates.reading("#/blankMl", blankMl, named);
  }

  private static Measured<Normality> typed(Readings.Titrant titrant) {
    double molesPerLitre = Objects.requireNonNull(titrant.normality());
    Normality normality =
        Refusal.at("#/titrant/normality", () -> UsualTitration.titrant(molesPerLitre));
    Double uncertainty = titrant.standardUncertainty();
    if (uncertainty == null) {
      return Measured.exactly(normality);
    }
    Measured<Normality> measured =
        Refusal.at("#/titrant/standardUncertainty", () -> Measured.of(normality, uncertainty));
    if (uncertainty > normality.molesPerLitre()) {
      throw Refusal.impossible(
          "#/titrant/standardUncertainty",
          "A standard uncertainty of %s mol/L is more than the normality itself, %s mol/L: check both and their unit."
              .formatted(Rounding.of(uncertainty), Rounding.of(normality.molesPerLitre())));
    }
    return measured;
  }

  private static List<String> cautions(
      Readings readings, @Nullable LotStrength lot, Reported reported, Oddities oddities) {
    TitrationBasis basis = oddities.basis();
    List<String> cautions = new ArrayList<>(reported.cautions());
    cautions.addAll(oddities.inWords());
    if (lot != null) {
      cautions.addAll(lot.cautions());
    }
    detection(reported, basis.analyte()).ifPresent(cautions::add);
    blank(oddities.titration(), basis.analyte()).ifPresent(cautions::add);
    outlyingBlank(oddities.titration().blank()).ifPresent(cautions::add);
    if (readings.blankMl() != null && !basis.analyte().hasBlank()) {
      cautions.add(
          "The blank was not taken off: it is titrated to the last end point, and free alkali to the first.");
    }
    if (lot == null && readings.titrant().standardUncertainty() == null) {
      cautions.add("No uncertainty of the titrant's normality was given: it was taken as exact.");
    }
    cautions.add(temperature(basis.analyte().solvent()));
    if (readings.glassware() == null) {
      cautions.add(NO_GLASSWARE);
    }
    if (readings.balance() == null
        && readings.replicates().stream().anyMatch(r -> r.sampleG() != null)) {
      cautions.add("No balance was named: one that reads to 0.01 g was taken.");
    }
    if (readings.replicates().stream().anyMatch(r -> r.sampleMl() != null)) {
      if (basis.densityCaution() != null) {
        cautions.add(basis.densityCaution());
      }
      cautions.add(
          "For a sample given by volume the smallest class B measuring cylinder that holds it was taken.");
    }
    return cautions;
  }

  /** What to say of a titrant whose temperature nobody noted. */
  static String temperature(Solvent solvent) {
    return "The titrant was taken as %s and within 4 °C of 20 °C.".formatted(solvent.words());
  }

  /** What to say of a figure that is none, or hardly one. */
  private static Optional<String> detection(Reported reported, Analyte analyte) {
    Determination found = reported.determination();
    Detection limits = found.detection();
    if (limits == null) {
      return found.isBelowDetection() ? Optional.of(analyte.belowDetection()) : Optional.empty();
    }
    String value = Rounding.of(found.value());
    if (found.isBelowDetection()) {
      return Optional.of(
          "Below detection: %s %s is under the limit of detection of %s %s, 3.3 times the scatter of the blanks. The signed value is kept."
              .formatted(value, reported.unit(), Rounding.of(limits.limit()), reported.unit()));
    }
    return found.isBelowQuantification()
        ? Optional.of(
            "Detected, but not quantified: %s %s is under the limit of quantification of %s %s, 10 times the scatter of the blanks."
                .formatted(
                    value, reported.unit(), Rounding.of(limits.quantification()), reported.unit()))
        : Optional.empty();
  }

  /** What to say of a blank that was not titrated with the sample, or scatters. */
  private static Optional<String> blank(SampleTitration titration, Analyte analyte) {
    Blank blank = titration.blank();
    if (blank instanceof Blank.MeanOf mean) {
      return Optional.of(
          "No blank was given: the mean of this line's latest %d blanks, %s mL, was taken off."
              .formatted(mean.series().n(), Rounding.of(mean.millilitres())));
    }
    BlankSeries series = blank.series();
    if (series != null && !blank.isByItself(titration.glassware())) {
      return Optional.of(
          "This line's latest %d blanks scatter by %s mL, more than one of them can be read to: that was taken as the uncertainty of the blank."
              .formatted(series.n(), Rounding.of(series.standardDeviation())));
    }
    return blank instanceof Blank.None && analyte.hasBlank()
        ? Optional.of(NO_BLANK)
        : Optional.empty();
  }

  private static Optional<String> outlyingBlank(Blank blank) {
    BlankSeries series = blank.series();
    return series == null || series.outlier() == null
        ? Optional.empty()
        : Optional.of(
            "Of this line's latest %d blanks that of %s mL stands out by Grubbs' test beyond 1 %%: correct or withdraw it if it was misread."
                .formatted(series.n(), Rounding.of(series.outlier())));
  }
}
