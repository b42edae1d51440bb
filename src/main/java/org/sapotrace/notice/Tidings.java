package org.sapotrace.notice;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** What a notice says; of each type always in the same form. */
public sealed interface Tidings {

  /** What happened, in a sentence. */
  String text();

  /** What somebody should do now, in a sentence. */
  String advice();

  Links links();

  /**
   * Where more is found.
   *
   * @param record the address of what it is about, in JSON
   * @param chart the address of the chart as a picture
   */
  record Links(String record, String chart) {}

  /**
   * Of a signal.
   *
   * @param stream its slug; that of the lot for the strength of a titrant
   * @param result the result at which it was raised
   * @param startedAt when the change is estimated to have begun
   */
  record OfSignal(
      String text,
      String advice,
      @Nullable String line,
      String stream,
      UUID signal,
      String rule,
      String side,
      UUID result,
      Instant sampledAt,
      Instant startedAt,
      int limitsRevision,
      Links links)
      implements Tidings {}

  /**
   * Of a verdict.
   *
   * @param expandedUncertainty null where unknown
   * @param limit the specification limit that it does not meet
   * @param action the advice in one word
   */
  record OfVerdict(
      String text,
      String advice,
      @Nullable String line,
      String stream,
      UUID result,
      int revision,
      String batch,
      Instant sampledAt,
      double value,
      String unit,
      @Nullable Double expandedUncertainty,
      double limit,
      String action,
      Links links)
      implements Tidings {}

  /**
   * Of limits, in the unit of the stream.
   *
   * @param reason what the one who adopted them said; null for nothing
   */
  record OfLimits(
      String text,
      String advice,
      @Nullable String line,
      String stream,
      int limitsRevision,
      @Nullable Double centre,
      @Nullable Double lower,
      @Nullable Double upper,
      String unit,
      @Nullable String reason,
      Links links)
      implements Tidings {}

  /**
   * Of a titrant lot, in mol/L.
   *
   * @param normality as found last
   * @param leavesOn the day on which the line through its standardisations leaves the tolerance;
   *     null where it is outside already
   */
  record OfTitrant(
      String text,
      String advice,
      String titrant,
      double normality,
      double lower,
      double upper,
      @Nullable LocalDate leavesOn,
      Links links)
      implements Tidings {}

  /**
   * Of a forecast that comes close to its limit.
   *
   * @param result the latest one, from whose sample what is left counts
   * @param days that it takes
   * @param upper null where the limit may as well never be reached
   * @param unit of what is left
   * @param limit in the unit of the stream
   */
  record OfForecast(
      String text,
      String advice,
      @Nullable String line,
      String stream,
      String kind,
      UUID result,
      Instant sampledAt,
      double days,
      String quantity,
      double remaining,
      double lower,
      @Nullable Double upper,
      String unit,
      double limit,
      Links links)
      implements Tidings {}
}
