package org.sapotrace.bench.rest;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.BatchRemoval;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.MeasuredElsewhere;
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.StandardReadings;
import org.sapotrace.bench.StandardisedTitrant;
import org.sapotrace.bench.Throughput;
import org.sapotrace.bench.Titration;
import org.sapotrace.chemistry.PrimaryStandard;

/** A result as it is read again: the answer it had, and flat beside it what was entered. */
record RereadView(
    @JsonUnwrapped ResultView result, @JsonUnwrapped Entered entered, List<Revision> revisions) {

  /** What was entered, without what the result says already. */
  sealed interface Entered {

    static Entered of(Entry entry) {
      if (entry instanceof Titration titration) {
        Readings readings = titration.readings();
        return new Titrated(
            titration.analyst(),
            readings.blankMl(),
            readings.glassware(),
            readings.balance(),
            readings.replicates(),
            titration.throughput(),
            titration.inletMgPerKg());
      }
      if (entry instanceof StandardisedTitrant standardised) {
        StandardReadings readings = standardised.readings();
        return new Standardised(
            standardised.lot(),
            standardised.performedAt(),
            readings.standard(),
            readings.purity(),
            readings.blankMl(),
            readings.glassware(),
            readings.balance(),
            readings.replicates());
      }
      if (entry instanceof BatchRemoval removal) {
        return new Derived(new From(removal.inlet(), removal.outlet()));
      }
      MeasuredElsewhere measured = (MeasuredElsewhere) entry;
      return new Measured(
          measured.values(),
          measured.expandedUncertainty(),
          measured.coverageFactor(),
          measured.source());
    }
  }

  /** The readings of a titration, but for its titrant. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record Titrated(
      @Nullable String analyst,
      @Nullable Double blankMl,
      @Nullable String glassware,
      @Nullable String balance,
      List<Readings.Replicate> replicates,
      @Nullable Throughput throughput,
      @Nullable Double inletMgPerKg)
      implements Entered {}

  /** A value measured elsewhere. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record Measured(
      List<Double> values,
      @Nullable Double expandedUncertainty,
      @Nullable Double coverageFactor,
      @Nullable String source)
      implements Entered {}

  /** The readings of a standardisation. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record Standardised(
      String lot,
      Instant performedAt,
      PrimaryStandard standard,
      @Nullable Double purity,
      @Nullable Double blankMl,
      @Nullable String glassware,
      @Nullable String balance,
      List<StandardReadings.Run> replicates)
      implements Entered {}

  /** A removal, which nobody entered. */
  record Derived(From from) implements Entered {}

  /** The results that a removal was found from. */
  record From(UUID inlet, UUID outlet) {}

  /** One state of the result; no value where it was withdrawn. */
  record Revision(
      int revision, Instant recordedAt, @Nullable String reason, @Nullable Double value) {

    static Revision of(RecordedResult.Revision revision) {
      return new Revision(
          revision.revision(),
          revision.recordedAt(),
          revision.reason(),
          revision.withdrawn() ? null : (Double) revision.assessment().result().value());
    }
  }

  /** The result with the titrant as it was typed, where it was not a lot on record. */
  private static ResultView titrated(Bench.PlacedResult placed, Titration titration) {
    Readings.Titrant typed = titration.readings().titrant();
    return typed.normality() == null
        ? ResultView.of(placed)
        : ResultView.of(
            placed,
            new ResultView.TitrantView(null, typed.normality(), typed.standardUncertainty(), null));
  }

  static RereadView of(Bench.PlacedResult placed) {
    Entry entered = placed.result().latest().entered();
    return new RereadView(
        entered instanceof Titration titration
            ? titrated(placed, titration)
            : ResultView.of(placed),
        Entered.of(entered),
        placed.result().revisions().stream().map(Revision::of).toList());
  }
}
