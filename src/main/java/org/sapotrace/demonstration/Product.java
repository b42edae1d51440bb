package org.sapotrace.demonstration;

import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;

/** The three product lines, and what they are like while nothing is wrong. */
enum Product {
  SODIUM(
      "sodium",
      "S",
      "Rapeseed with sodium methoxide",
      10,
      Alkali.SODIUM,
      1200,
      40,
      null,
      10,
      100,
      0.12,
      Double.POSITIVE_INFINITY),
  POTASSIUM(
      "potassium",
      "P",
      "Sunflower with potassium methoxide",
      25,
      Alkali.POTASSIUM,
      1500,
      120,
      200.0,
      10,
      50,
      0.04,
      864),
  WASTE_OIL(
      "waste-oil",
      "W",
      "Waste oil with potassium methoxide",
      40,
      Alkali.POTASSIUM,
      2500,
      24.6,
      null,
      5,
      100,
      0.16,
      Double.POSITIVE_INFINITY);

  private final String slug;
  private final String letter;
  private final String label;
  private final int minute;
  private final Alkali alkali;
  private final double crude;
  private final double washed;
  private final @Nullable Double washedLimit;
  private final double crudePortion;
  private final double washedPortion;
  private final double leak;
  private final double halfway;

  /**
   * A line.
   *
   * @param crude mean soap before the wash, mg/kg
   * @param washed mean soap after it, mg/kg: 0.6 of what is allowed there
   * @param washedLimit what is allowed there, mg/kg; null for the usual
   * @param crudePortion how much crude is titrated, g
   * @param washedPortion how much washed fuel is titrated, g
   * @param leak see {@link Tower}
   * @param halfway likewise
   */
  Product(
      String slug,
      String letter,
      String label,
      int minute,
      Alkali alkali,
      double crude,
      double washed,
      @Nullable Double washedLimit,
      double crudePortion,
      double washedPortion,
      double leak,
      double halfway) {
    this.slug = slug;
    this.letter = letter;
    this.label = label;
    this.minute = minute;
    this.alkali = alkali;
    this.crude = crude;
    this.washed = washed;
    this.washedLimit = washedLimit;
    this.crudePortion = crudePortion;
    this.washedPortion = washedPortion;
    this.leak = leak;
    this.halfway = halfway;
  }

  String slug() {
    return slug;
  }

  /** The minute of the hour at which it is visited, one line after the other. */
  int minute() {
    return minute;
  }

  String label() {
    return label;
  }

  Alkali alkali() {
    return alkali;
  }

  double crude() {
    return crude;
  }

  double washed() {
    return washed;
  }

  @Nullable Double washedLimit() {
    return washedLimit;
  }

  double crudePortion() {
    return crudePortion;
  }

  double washedPortion() {
    return washedPortion;
  }

  Tower tower() {
    return new Tower(leak, halfway);
  }

  /** The batch of a day; there is one each day. */
  String batch(int day) {
    return "%s-%03d".formatted(letter, day + 1);
  }
}
