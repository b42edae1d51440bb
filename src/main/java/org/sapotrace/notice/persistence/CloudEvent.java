package org.sapotrace.notice.persistence;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import java.time.Instant;
import java.util.UUID;
import org.sapotrace.notice.Notice;
import org.sapotrace.notice.Tidings;

/** A notice as a CloudEvent of version 1.0, in structured mode. */
@JsonPropertyOrder({
  "specversion",
  "id",
  "source",
  "type",
  "subject",
  "time",
  "datacontenttype",
  "data"
})
record CloudEvent(
    String specversion,
    UUID id,
    String source,
    String type,
    String subject,
    Instant time,
    String datacontenttype,
    Tidings data) {

  static CloudEvent of(Notice notice) {
    return new CloudEvent(
        "1.0",
        notice.id(),
        notice.source(),
        notice.type().id(),
        notice.subject(),
        notice.at(),
        "application/json",
        notice.tidings());
  }
}
