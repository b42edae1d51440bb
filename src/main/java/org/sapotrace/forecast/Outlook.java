package org.sapotrace.forecast;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.washmodel.Forecast;
import org.sapotrace.washmodel.Forecast.Parameter;

/**
 * What a stream is heading for.
 *
 * @param model its formula in words; null where nothing is estimated
 * @param parameters what was estimated, then what was counted, whose standard error is 0
 * @param remaining what is left from the latest result on; null without a forecast
 * @param evidence the results that it rests on
 * @param reason what it comes to, or why it comes to nothing
 * @param missing what would tell more; null for nothing
 */
public record Outlook(
    Kind kind,
    Status status,
    @Nullable String model,
    List<Parameter> parameters,
    @Nullable Remaining remaining,
    List<UUID> evidence,
    String reason,
    @Nullable String missing) {

  /** What there is to foresee at a sampling point. */
  public enum Kind {
    BREAKTHROUGH("breakthrough"),
    FLUSH("flush"),
    WATER_WASH("water-wash"),
    STORAGE("storage"),
    TREND("trend");

    private final String id;

    Kind(String id) {
      this.id = id;
    }

    public String id() {
      return id;
    }
  }

  /** What came of it. */
  public enum Status {
    FORECAST("forecast"),
    NO_TREND("no-trend"),
    INSUFFICIENT("insufficient");

    private final String id;

    Status(String id) {
      this.id = id;
    }

    public String id() {
      return id;
    }
  }

  /**
   * What is left until the limit, with its 95 % interval.
   *
   * @param upper null where the limit may as well never be reached
   * @param limit in the unit of the stream
   */
  public record Remaining(
      String quantity,
      double value,
      double lower,
      @Nullable Double upper,
      String unit,
      double limit) {

    static Remaining of(Forecast.Remaining left) {
      return new Remaining(
          left.quantity(),
          left.value(),
          left.lower(),
          Double.isFinite(left.upper()) ? (Double) left.upper() : null,
          left.unit(),
          left.limit());
    }
  }

  public Outlook {
    parameters = List.copyOf(parameters);
    evidence = List.copyOf(evidence);
  }

  /** What a model says. */
  static Outlook of(Kind kind, Forecast forecast, List<UUID> evidence) {
    if (forecast instanceof Forecast.Expected expected) {
      return new Outlook(
          kind,
          Status.FORECAST,
          expected.model(),
          expected.parameters(),
          Remaining.of(expected.remaining()),
          evidence,
          expected.reason(),
          null);
    }
    if (forecast instanceof Forecast.NoTrend none) {
      return new Outlook(
          kind,
          Status.NO_TREND,
          none.model(),
          none.parameters(),
          null,
          evidence,
          none.reason(),
          null);
    }
    return insufficient(kind, forecast.reason(), evidence);
  }

  static Outlook insufficient(Kind kind, String reason, List<UUID> evidence) {
    return new Outlook(kind, Status.INSUFFICIENT, null, List.of(), null, evidence, reason, null);
  }

  boolean isInsufficient() {
    return status == Status.INSUFFICIENT;
  }

  /** The same, with more that was counted. */
  Outlook with(List<Parameter> counted) {
    List<Parameter> all = new ArrayList<>(parameters);
    all.addAll(counted);
    return new Outlook(kind, status, model, all, remaining, evidence, reason, missing);
  }

  /** The same, with more to be said. */
  Outlook saying(List<String> further) {
    List<String> all = new ArrayList<>();
    all.add(reason);
    all.addAll(further);
    return new Outlook(
        kind, status, model, parameters, remaining, evidence, String.join(" ", all), missing);
  }

  /** The same, with what would tell more. */
  Outlook missing(@Nullable String what) {
    return new Outlook(kind, status, model, parameters, remaining, evidence, reason, what);
  }
}
