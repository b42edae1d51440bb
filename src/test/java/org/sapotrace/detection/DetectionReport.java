package org.sapotrace.detection;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;

/** Writes the tables of docs/detection.md anew, between its marks. */
final class DetectionReport {

  private static final String BEGIN = "<!-- written by DetectionReport from here -->\n";
  private static final String END = "<!-- to here -->\n";
  private static final int PLANTS = 2000;
  private static final int QUIET_PLANTS = 500;
  private static final long SEED = 2026;
  private static final int[] BATCHES = {20, 30, 40, 60};

  private final StringBuilder out = new StringBuilder();
  private final Map<Study, Summary> studies = new HashMap<>();

  private record Study(SimulatedLine.Spreads spreads, Drift drift, Watching watching) {}

  private DetectionReport() {}

  public static void main(String[] arguments) throws IOException {
    Path page = Path.of(arguments[0]);
    String text = Files.readString(page, StandardCharsets.UTF_8);
    DetectionReport report = new DetectionReport();
    report.write();
    int begin = text.indexOf(BEGIN) + BEGIN.length();
    Files.writeString(
        page, text.substring(0, begin) + report.out + text.substring(text.indexOf(END)));
  }

  private void write() {
    warnings("### Warning", SimulatedLine.Spreads.USUAL);
    falseAlarms();
    causes();
    chance();
    warnings(
        "### Warning where the wash spreads more and the feed less",
        SimulatedLine.Spreads.UNEVEN_WASH);
    limits();
    attempts();
  }

  private void warnings(String title, SimulatedLine.Spreads spreads) {
    line("%n%s%n", title);
    line(
        "| drift | mean at the limit after | first failure | limits alone | the defaults | all rules |");
    line("|---|---|---|---|---|---|");
    for (Fault fault : Fault.values()) {
      for (int batches : BATCHES) {
        warnings(fault.label(), spreads, batches, fault);
      }
    }
    for (int batches : BATCHES) {
      warnings("any of the four", spreads, batches, Fault.values());
    }
  }

  private void warnings(String label, SimulatedLine.Spreads spreads, int batches, Fault... faults) {
    StringBuilder row = new StringBuilder();
    int failure = 0;
    for (Detecting detecting : Detecting.values()) {
      Summary summary =
          Summary.of(
              Arrays.stream(faults)
                  .map(fault -> study(spreads, new Drift(fault, batches), detecting))
                  .toList());
      failure = summary.medianFailure();
      row.append(warning(summary));
    }
    line("| %s | %d | %d |%s", label, batches, failure, row);
  }

  /** The plants of one study; the seed is that of its pace. */
  private Summary study(SimulatedLine.Spreads spreads, Drift drift, Watching watching) {
    return studies.computeIfAbsent(
        new Study(spreads, drift, watching),
        any -> Summary.of(spreads, drift, watching, PLANTS, SEED + drift.batches()));
  }

  private void falseAlarms() {
    line("%n### False alarms%n");
    line("| stream | limits alone | the defaults | all rules |");
    line("|---|---|---|---|");
    Map<Charted, Double> limits = falseAlarms(Detecting.LIMITS_ALONE);
    Map<Charted, Double> defaults = falseAlarms(Detecting.DEFAULTS);
    Map<Charted, Double> all = falseAlarms(Detecting.ALL_RULES);
    for (Charted stream : Charted.values()) {
      line(
          "| %s | %.1f | %.1f | %.1f |",
          stream.label(),
          1000 * limits.get(stream),
          1000 * defaults.get(stream),
          1000 * all.get(stream));
    }
  }

  private static Map<Charted, Double> falseAlarms(Watching watching) {
    return Detection.falseAlarms(
        SimulatedLine.Spreads.USUAL, watching, QUIET_PLANTS, new SplittableRandom(SEED));
  }

  private void causes() {
    line("%n### Causes%n");
    line(
        "| drift | mean at the limit after | at the signal | five batches later | at the first failure |");
    line("|---|---|---|---|---|");
    for (Fault fault : Fault.values()) {
      for (int batches : BATCHES) {
        Summary summary =
            study(SimulatedLine.Spreads.USUAL, new Drift(fault, batches), Detecting.DEFAULTS);
        StringBuilder row = new StringBuilder();
        for (Detection.Asked asked : Detection.Asked.values()) {
          row.append(
              text(
                  " %.0f, %.1f, %.0f |",
                  100 * summary.right(asked),
                  100 * summary.wrong(asked),
                  100 * summary.undecided(asked)));
        }
        line("| %s | %d |%s", fault.label(), batches, row);
      }
    }
  }

  /** What is named where nothing is wrong. */
  private void chance() {
    line("%n### Causes of chance signals%n");
    line("| stream | at the signal | five batches later |");
    line("|---|---|---|");
    Map<Charted, Chance> chances =
        Chance.of(SimulatedLine.Spreads.USUAL, QUIET_PLANTS, new SplittableRandom(SEED));
    chances.forEach(
        (stream, chance) ->
            line(
                "| %s | %.0f | %.0f |",
                stream.label(), 100 * chance.named(), 100 * chance.namedLater()));
  }

  /** The defaults beside the practical limit. */
  private void limits() {
    line("%n### The practical limit%n");
    line(
        "| drift in 30 batches | spread | the defaults | both sides, all known |"
            + " one side and pace, from 45 results | one side and pace, all known |");
    line("|---|---|---|---|---|---|");
    for (Fault fault : List.of(Fault.WASH, Fault.FEED)) {
      for (SimulatedLine.Spreads spreads :
          List.of(SimulatedLine.Spreads.USUAL, SimulatedLine.Spreads.UNEVEN_WASH)) {
        Drift drift = new Drift(fault, 30);
        line(
            "| %s | feed %.1f %%, wash %.1f %% |%s%s%s%s",
            fault.label(),
            100 * spreads.feed(),
            100 * spreads.wash(),
            warning(study(spreads, drift, Detecting.DEFAULTS)),
            warning(study(spreads, drift, new AllKnown(spreads))),
            warning(study(spreads, drift, new RampRatio(spreads, drift, false))),
            warning(study(spreads, drift, new RampRatio(spreads, drift, true))));
      }
    }
  }

  private void attempts() {
    line("%n### What was tried%n");
    line("| watched, beside limits | a failing wash | a soapier feed | false alarms |");
    line("|---|---|---|---|");
    Attempts.all()
        .forEach(
            (label, watching) ->
                line(
                    "| %s |%s%s %.1f |",
                    label,
                    warning(inThirty(Fault.WASH, watching)),
                    warning(inThirty(Fault.FEED, watching)),
                    1000 * mostFalseAlarms(watching)));
  }

  private Summary inThirty(Fault fault, Watching watching) {
    return study(SimulatedLine.Spreads.USUAL, new Drift(fault, 30), watching);
  }

  /** Of crude, washed fuel and removal. */
  private static double mostFalseAlarms(Watching watching) {
    Map<Charted, Double> alarms = falseAlarms(watching);
    return Stream.of(Charted.CRUDE, Charted.WASHED, Charted.REMOVAL)
        .mapToDouble(alarms::get)
        .max()
        .orElseThrow();
  }

  private static String warning(Summary summary) {
    return text(
        " %d, %d; %.1f %% |", summary.warning(0.5), summary.warning(0.1), 100 * summary.missed());
  }

  private void line(String format, Object... values) {
    out.append(text(format, values)).append('\n');
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
