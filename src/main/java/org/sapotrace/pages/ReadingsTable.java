package org.sapotrace.pages;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.measure.Rounding;

/**
 * What was read, and what each titration comes to.
 *
 * @param hasFirstEndPoint whether a first of two end points was titrated
 * @param titrant what was titrated with, and from what
 */
public record ReadingsTable(boolean hasFirstEndPoint, List<Row> rows, String titrant) {

  /** One titration. */
  public record Row(
      int number, String firstEndPoint, String titrant, String sample, String found) {}

  static ReadingsTable of(Readings readings, Assessment assessment) {
    Figure figure = assessment.result();
    List<Readings.Replicate> runs = readings.replicates();
    return new ReadingsTable(
        runs.stream().anyMatch(run -> run.freeAlkaliMl() != null),
        IntStream.range(0, runs.size()).mapToObj(i -> row(i + 1, runs.get(i), figure)).toList(),
        titrant(readings, assessment.titrant()));
  }

  private static Row row(int number, Readings.Replicate run, Figure figure) {
    return new Row(
        number,
        millilitres(run.freeAlkaliMl()),
        run.titrantMl() == null
            ? millilitres(run.initialMl()) + " to " + millilitres(run.finalMl())
            : millilitres(run.titrantMl()),
        sample(run),
        number <= figure.replicates().size()
            ? found(figure.replicates().get(number - 1), figure)
            : "");
  }

  /** To the place to which the figure itself is read. */
  private static String found(double value, Figure figure) {
    Double expanded = figure.expandedUncertainty();
    String number =
        expanded == null ? Rounding.of(value) : Rounding.of(value, expanded).split(" ± ", -1)[0];
    return number + " " + Words.unit(figure.unit());
  }

  private static String sample(Readings.Replicate run) {
    return run.sampleG() == null
        ? millilitres(run.sampleMl())
            + (run.sampleC() == null ? "" : " at " + Rounding.of(run.sampleC()) + " °C")
        : Rounding.of(run.sampleG()) + " g";
  }

  private static String millilitres(@Nullable Double volume) {
    return volume == null ? "–" : Rounding.of(volume) + " mL";
  }

  private static String titrant(Readings readings, @Nullable UsedTitrant lot) {
    List<String> parts = new ArrayList<>();
    parts.add(
        lot == null
            ? "Titrant "
                + strength(readings.titrant().normality(), readings.titrant().standardUncertainty())
            : "Titrant lot %s at %s"
                .formatted(lot.lot(), strength(lot.normality(), lot.standardUncertainty())));
    if (readings.blankMl() != null) {
      parts.add("blank " + millilitres(readings.blankMl()));
    }
    if (readings.glassware() != null) {
      parts.add("from " + readings.glassware());
    }
    if (readings.balance() != null) {
      parts.add("weighed on " + readings.balance());
    }
    return String.join(", ", parts) + ".";
  }

  private static String strength(@Nullable Double normality, @Nullable Double uncertainty) {
    return (normality == null ? "–" : Rounding.of(normality))
        + " mol/L"
        + (uncertainty == null
            ? ""
            : " (standard uncertainty " + Words.uncertainty(uncertainty, "1") + ")");
  }
}
