package org.sapotrace.chemistry;

import java.util.List;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.Volume;

/**
 * A piece of volumetric glassware, and what it adds to the uncertainty of a volume.
 *
 * @param slug its name in the interface, such as {@code burette-25ml}
 * @param kind what it is
 * @param capacityMl in mL, more than 0
 * @param graduationMl between two marks, in mL, at least 0; 0 leaves the reading out of a budget
 * @param accuracyClass of the standard, such as {@code A}
 * @param toleranceMl plus or minus, in mL, at least 0
 * @param endPointMl the standard uncertainty of an end point found with it, in mL, at least 0
 * @param source where graduation and tolerance come from
 * @param mark how far they can be trusted, such as {@code memory}
 */
public record Glassware(
    String slug,
    Kind kind,
    double capacityMl,
    double graduationMl,
    String accuracyClass,
    double toleranceMl,
    double endPointMl,
    String source,
    String mark) {

  /** What a piece of glassware is for. */
  public enum Kind {
    BURETTE("burette"),
    MEASURING_PIPETTE("measuring pipette"),
    /** Measures out samples; no titrant is delivered from it. */
    MEASURING_CYLINDER("measuring cylinder"),
    /** Holds one volume; solutions of a standard are made up in it. */
    VOLUMETRIC_FLASK("volumetric flask"),
    /** Delivers one volume; aliquots are taken with it. */
    PIPETTE("pipette");

    private final String label;

    Kind(String label) {
      this.label = label;
    }

    /** The name for people. */
    public String label() {
      return label;
    }

    /** Whether titrant can be delivered from it. */
    public boolean deliversTitrant() {
      return this == BURETTE || this == MEASURING_PIPETTE;
    }
  }

  /** Refuses impossible dimensions with {@link IllegalArgumentException}. */
  public Glassware {
    boolean possible =
        capacityMl > 0
            && graduationMl >= 0
            && graduationMl < capacityMl
            && toleranceMl >= 0
            && toleranceMl < capacityMl
            && endPointMl >= 0
            && endPointMl < capacityMl;
    if (!possible) {
      throw new IllegalArgumentException(
          "The dimensions of %s do not fit together: capacity more than 0 mL, the others from 0 mL to less than the capacity."
              .formatted(slug));
    }
  }

  /** Every piece that is known, in the order of the data file. */
  public static List<Glassware> all() {
    return GlasswareTable.ROWS;
  }

  /** Every piece that titrant can be delivered from, in the order of the data file. */
  public static List<Glassware> forTitrant() {
    return all().stream().filter(each -> each.kind.deliversTitrant()).toList();
  }

  /** What a budget assumes where no glassware is named: a 25 mL burette of class A. */
  public static Glassware assumed() {
    return named("burette-25ml");
  }

  /**
   * The piece of that name.
   *
   * @throws IllegalArgumentException for a name that is not known
   */
  public static Glassware named(String slug) {
    return ByName.find("glassware", slug, all(), Glassware::slug);
  }

  /**
   * The smallest piece of a kind that holds a volume.
   *
   * @param otherwise what to do where none does, in words
   * @throws IllegalArgumentException for a volume that none holds
   */
  static Glassware smallest(Kind kind, Volume volume, String otherwise) {
    return all().stream()
        .filter(each -> each.kind == kind && each.holds(volume))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "No %s holds %s mL; %s."
                        .formatted(kind.label, Rounding.of(volume.millilitres()), otherwise)));
  }

  /** Whether a volume fits into one filling. */
  public boolean holds(Volume volume) {
    return volume.millilitres() <= capacityMl;
  }

  /** Whether so little is read poorly: below 30 % of the capacity (common practice, no source). */
  public boolean isPoorFor(Volume volume) {
    return volume.millilitres() < 0.3 * capacityMl;
  }

  /**
   * Refuses a reading that one filling cannot give.
   *
   * @throws IllegalArgumentException for a volume above the capacity
   */
  public void checkHolds(Volume volume) {
    if (!holds(volume)) {
      throw new IllegalArgumentException(
          "%s mL cannot be read from one filling of %s, which holds %s mL: check the reading or name the glassware that was used."
              .formatted(Rounding.of(volume.millilitres()), slug, Rounding.of(capacityMl)));
    }
  }

  /**
   * The standard uncertainty of a delivered volume from reading the scale, in mL: two readings,
   * each rectangular over half a graduation g to either side of the mark, so sqrt(2) (g/2) /
   * sqrt(3) (common practice, no published source).
   */
  public double readingMl() {
    return Math.sqrt(2) * (graduationMl / 2) / Math.sqrt(3);
  }

  /**
   * The standard uncertainty from the tolerance a, in mL: triangular, a / sqrt(6) (EURACHEM/CITAC
   * QUAM:2012, appendix E).
   */
  public double calibrationMl() {
    return toleranceMl / Math.sqrt(6);
  }
}
