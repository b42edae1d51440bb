package org.sapotrace.notice;

import java.util.Arrays;

/** What others are told of. */
public enum NoticeType {
  SIGNAL_RAISED("org.sapotrace.signal.raised"),
  /** A signal that was told turned out not to hold. */
  SIGNAL_LAPSED("org.sapotrace.signal.lapsed"),
  VERDICT_NONCONFORMING("org.sapotrace.verdict.nonconforming"),
  LIMITS_ADOPTED("org.sapotrace.limits.adopted"),
  TITRANT_LEAVING_TOLERANCE("org.sapotrace.titrant.leaving-tolerance"),
  FORECAST_CROSSING("org.sapotrace.forecast.crossing");

  private final String id;

  NoticeType(String id) {
    this.id = id;
  }

  /** The type of the CloudEvent. */
  public String id() {
    return id;
  }

  /** The type of that {@linkplain #id() identifier}. */
  public static NoticeType named(String id) {
    return Arrays.stream(values()).filter(type -> type.id.equals(id)).findFirst().orElseThrow();
  }
}
