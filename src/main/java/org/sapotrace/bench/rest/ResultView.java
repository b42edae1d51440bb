package org.sapotrace.bench.rest;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.CusumState;
import org.sapotrace.controlchart.EwmaState;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.monitoring.Control;
import org.sapotrace.monitoring.FirstWatch;
import org.sapotrace.monitoring.LimitsRevision;

/** A result as it is answered. */
record ResultView(
    UUID id,
    @Nullable String line,
    String stream,
    String batch,
    Instant sampledAt,
    int revision,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean withdrawn,
    Figure result,
    @Nullable Verdict verdict,
    @Nullable ControlView control,
    @Nullable TitrantView titrant,
    List<String> cautions) {

  /** The result with the lot that was titrated with; no titrant where its normality was typed. */
  static ResultView of(Bench.PlacedResult placed) {
    UsedTitrant used = placed.result().latest().assessment().titrant();
    return of(placed, used == null ? null : TitrantView.of(used));
  }

  static ResultView of(Bench.PlacedResult placed, @Nullable TitrantView titrant) {
    RecordedResult result = placed.result();
    Assessment assessment = result.latest().assessment();
    return new ResultView(
        result.id(),
        placed.stream().line(),
        placed.stream().slug(),
        result.batch(),
        result.sampledAt(),
        result.latest().revision(),
        result.latest().withdrawn(),
        assessment.result(),
        // What does not count decides nothing.
        result.latest().withdrawn() ? null : assessment.verdict(),
        placed.control() == null ? null : ControlView.of(placed.control()),
        titrant,
        placed.cautions());
  }

  /** What was titrated with: a lot on record, or a solution of known normality. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record TitrantView(
      @Nullable String lot,
      double normality,
      @Nullable Double standardUncertainty,
      @Nullable Boolean interpolated) {

    static TitrantView of(UsedTitrant used) {
      return new TitrantView(
          used.lot(), used.normality(), used.standardUncertainty(), used.interpolated());
    }
  }

  /** Where the result stands on its chart; null for what there is none of. */
  record ControlView(
      int position,
      @Nullable Integer limitsRevision,
      @Nullable Double centre,
      @Nullable Double upper,
      @Nullable Double lower,
      @Nullable Double ewma,
      @Nullable Double cusumHigh,
      @Nullable Double cusumLow,
      List<SignalView> signals,
      @Nullable FirstWatch firstWatch) {

    static ControlView of(Control control) {
      LimitsRevision limits = control.limits();
      ChartState state = control.state();
      EwmaState ewma = state == null ? null : state.ewma();
      CusumState cusum = state == null ? null : state.cusum();
      return new ControlView(
          control.position(),
          limits == null ? null : (Integer) limits.revision(),
          limits == null ? null : limits.shown(limits.limits().centre()),
          limits == null ? null : limits.shown(limits.limits().upper()),
          limits == null ? null : limits.shown(limits.limits().lower()),
          limits == null || ewma == null ? null : limits.shown(ewma.average()),
          cusum == null ? null : (Double) cusum.high().value(),
          cusum == null ? null : (Double) cusum.low().value(),
          control.signals().stream()
              .map(signal -> new SignalView(signal.id(), signal.rule(), signal.text()))
              .toList(),
          control.firstWatch());
    }
  }

  /** A signal that holds or goes on at the result. */
  record SignalView(UUID id, SignalRule rule, String text) {}
}
