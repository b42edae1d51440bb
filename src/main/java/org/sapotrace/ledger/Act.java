package org.sapotrace.ledger;

import java.util.Arrays;

/** What may be done to the record. */
public enum Act {
  LINE_PUT("line-put"),
  STREAM_PUT("stream-put"),
  EVENT_RECORDED("event-recorded"),
  RESULT_RECORDED("result-recorded"),
  /** Something else counts as entered. */
  RESULT_CORRECTED("result-corrected"),
  RESULT_WITHDRAWN("result-withdrawn"),
  /** Something else was made of what had been entered. */
  RESULT_RESTATED("result-restated"),
  /** Somebody stands behind the limits. */
  LIMITS_ADOPTED("limits-adopted"),
  /** The service laid down limits by itself. */
  LIMITS_LAID_DOWN("limits-laid-down"),
  FINDING_PUT("finding-put"),
  LOT_PUT("lot-put"),
  LOT_RESTATED("lot-restated"),
  SUBSCRIPTION_PUT("subscription-put"),
  KEY_MADE("key-made"),
  KEY_REVOKED("key-revoked");

  private final String id;

  Act(String id) {
    this.id = id;
  }

  /** The name in the interface, such as {@code line-put}. */
  public String id() {
    return id;
  }

  /** The act of that name. */
  public static Act named(String id) {
    return Arrays.stream(values()).filter(act -> act.id.equals(id)).findFirst().orElseThrow();
  }
}
