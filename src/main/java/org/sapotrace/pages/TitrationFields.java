package org.sapotrace.pages;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.sapotrace.chemistry.BenchBalance;
import org.sapotrace.chemistry.Glassware;
import org.sapotrace.measure.Rounding;
import org.sapotrace.pages.Field.Kind;
import org.sapotrace.productline.Measurand;

/** The fields of a titration, by what it finds; empty, and named like what they stand for. */
final class TitrationFields {

  static final String BATCH = "batch";
  static final String SAMPLED_AT = "sampledAt";
  static final String OFFSET = "offset";
  static final String ANALYST = "analyst";
  static final String LOT = "titrant.lot";
  static final String NORMALITY = "titrant.normality";
  static final String NORMALITY_UNCERTAINTY = "titrant.standardUncertainty";
  static final String BLANK = "blankMl";
  static final String GLASSWARE = "glassware";
  static final String BALANCE = "balance";
  static final String REASON = "reason";

  private TitrationFields() {}

  /** The name of a field of one titration. */
  static String of(int titration, String reading) {
    return "replicates." + titration + "." + reading;
  }

  /**
   * What is asked of any sample.
   *
   * @param clock the name of the clock by which times are typed
   */
  static List<Field> sample(String clock) {
    return List.of(
        Field.of(BATCH, "Batch", Kind.NEEDED_TEXT),
        Field.of(SAMPLED_AT, "Sampled", Kind.TIME).hinting("By this clock: " + clock + "."));
  }

  /** How far another clock is ahead of UTC. */
  static Field offset() {
    return Field.of(OFFSET, "How far that clock is ahead of UTC", Kind.TEXT)
        .hinting("Such as +01:00, or Z for UTC itself.");
  }

  /**
   * What is titrated with.
   *
   * @param lots on record
   */
  static List<Field> titrant(Measurand measurand, List<Field.Option> lots) {
    List<Field> fields = new ArrayList<>();
    fields.add(
        Field.of(LOT, "Titrant lot", Kind.TEXT)
            .suggesting(lots)
            .hinting("As on the bottle; or else its normality:"));
    fields.add(
        Field.of(NORMALITY, "Titrant normality", Kind.NUMBER)
            .in("mol/L")
            .hinting("As standardised, such as 0.0100."));
    fields.add(
        Field.of(NORMALITY_UNCERTAINTY, "Its uncertainty", Kind.NUMBER)
            .in("mol/L")
            .hinting("Standard uncertainty, if known."));
    if (measurand != Measurand.FREE_ALKALI) {
      fields.add(
          Field.of(BLANK, "Blank", Kind.NUMBER)
              .in("mL")
              .hinting("Titrant for solvent and indicator alone."));
    }
    fields.add(Field.of(GLASSWARE, "Titrated from", Kind.CHOICE).choosing(glassware()));
    fields.add(Field.of(BALANCE, "Weighed on", Kind.CHOICE).choosing(balances()));
    fields.add(Field.of(ANALYST, "Analyst", Kind.TEXT));
    return fields;
  }

  private static List<Field.Option> glassware() {
    return Stream.concat(
            Stream.of(new Field.Option("", "not named: 25 mL burette, class A")),
            Glassware.forTitrant().stream()
                .map(
                    each ->
                        new Field.Option(
                            each.slug(),
                            "%s mL %s, class %s"
                                .formatted(
                                    Rounding.of(each.capacityMl()),
                                    each.kind().label(),
                                    each.accuracyClass()))))
        .toList();
  }

  private static List<Field.Option> balances() {
    return Stream.concat(
            Stream.of(new Field.Option("", "not named: reads to 0.01 g")),
            Stream.of(BenchBalance.values())
                .map(
                    each ->
                        new Field.Option(
                            each.slug(),
                            "reads to %s g".formatted(Rounding.of(each.readabilityG())))))
        .toList();
  }

  /** What every titration needs. */
  static List<Field> readings(int titration, Measurand measurand) {
    Field sample = Field.of(of(titration, "sampleG"), "Sample", Kind.NUMBER).in("g");
    Field titrant =
        Field.of(
                of(titration, "titrantMl"),
                measurand == Measurand.SOAP || measurand == Measurand.FREE_ALKALI
                    ? "Titrant in all"
                    : "Titrant",
                Kind.NUMBER)
            .in("mL");
    Field first = Field.of(of(titration, "freeAlkaliMl"), "First end point", Kind.NUMBER).in("mL");
    return switch (measurand) {
      case SOAP -> List.of(sample, titrant, first.hinting("For free alkali; 0 if there was none."));
      case FREE_ALKALI -> List.of(sample, first.hinting("0 if there was no free alkali."), titrant);
      default -> List.of(sample, titrant);
    };
  }

  /** What may stand in place of a volume and of a mass. */
  static List<Field> otherwise(int titration) {
    return List.of(
        Field.of(of(titration, "sampleMl"), "Sample by volume", Kind.NUMBER).in("mL"),
        Field.of(of(titration, "sampleC"), "at", Kind.NUMBER).in("°C"),
        Field.of(of(titration, "initialMl"), "Burette at the start", Kind.NUMBER).in("mL"),
        Field.of(of(titration, "finalMl"), "Burette at the end", Kind.NUMBER).in("mL"));
  }
}
