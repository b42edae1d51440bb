package org.sapotrace.pages;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.Stream;

/** What people read on the pages of what is on record. */
final class Words {

  private Words() {}

  /** The address of a stream's form; slugs need no escaping. */
  static String path(Stream stream) {
    return "/lines/%s/streams/%s".formatted(stream.line(), stream.slug());
  }

  /** A unit as people write it: UCUM has 1 for a plain number. */
  static String unit(String ucum) {
    return ucum.equals("1") ? "" : ucum;
  }

  static String withUnit(double value, String ucum) {
    return (Rounding.of(value) + " " + unit(ucum)).strip();
  }

  /** What a stream measures, such as {@code soap as sodium oleate, mg/kg}. */
  static String quantity(Line line, Stream stream) {
    String what =
        switch (stream.measurand()) {
          case SOAP -> "soap as " + line.alkali().soapName();
          case FREE_ALKALI -> "free alkali as " + line.alkali().id() + " hydroxide";
          case FREE_FATTY_ACID -> "free fatty acid as oleic acid";
          case REMOVAL -> "ln (soap before / soap behind)";
          case OTHER ->
              stream.samplingPoint() == SamplingPoint.BLANK
                  ? "titrant that a blank takes"
                  : "measured elsewhere";
          default -> stream.measurand().label();
        };
    String unit = unit(stream.unit());
    return unit.isEmpty() ? what : what + ", " + unit;
  }

  /** Whether a titration of a sample gives what a stream measures. */
  static boolean isTitrated(Measurand measurand) {
    return switch (measurand) {
      case SOAP, FREE_ALKALI, ACID_NUMBER, FREE_FATTY_ACID -> true;
      case TITRANT_STRENGTH, REMOVAL, OTHER -> false;
    };
  }

  /** What to do, in a word or two; the outcome where there is nothing to be done. */
  static String advice(Verdict verdict) {
    return switch (verdict.advice()) {
      case RELEASE -> "Release";
      case REWASH -> "Wash again";
      case RETEST -> "Test again";
      case HOLD -> "Hold";
      case FLUSH_ON -> "Flush on";
      case NONE -> outcome(verdict.outcome());
    };
  }

  static String outcome(Verdict.Outcome outcome) {
    return switch (outcome) {
      case CONFORMING -> "Conforming";
      case NONCONFORMING -> "Not conforming";
      case INCONCLUSIVE -> "Inconclusive";
    };
  }

  /** An uncertainty, to two significant figures. */
  static String uncertainty(double value, String ucum) {
    BigDecimal rounded =
        BigDecimal.valueOf(value).round(new MathContext(2, RoundingMode.HALF_EVEN));
    return withUnit(rounded.doubleValue(), ucum);
  }

  /** How many more titrations, such as {@code one more titration}. */
  static String more(int titrations) {
    return titrations == 1 ? "one more titration" : titrations + " more titrations";
  }

  /** A part of the whole in percent. */
  static String share(double share) {
    long percent = Math.round(100 * share);
    return share > 0 && percent == 0 ? "< 1 %" : percent + " %";
  }

  /** The same text, beginning with a capital. */
  static String capital(String text) {
    return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }

  /** What somebody wrote, with a capital and a stop. */
  static String sentence(String text) {
    String words = capital(text.strip());
    return words.matches("(?s).*[.!?]") ? words : words + ".";
  }
}
