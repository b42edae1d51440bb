package org.sapotrace.monitoring;

import java.util.List;
import java.util.UUID;

/** The limits of the streams, revision by revision. */
public interface LimitsRevisions {

  /** All of a stream, in the order of their revisions. */
  List<LimitsRevision> of(UUID stream);

  void add(UUID stream, LimitsRevision limits);
}
