package org.sapotrace.bench;

/** Reads entries as clients send them. */
public interface SentEntries {

  /**
   * The titration or result in a text of JSON, in the form in which the interface takes it.
   *
   * @throws RuntimeException that becomes a problem, where it is neither
   */
  Entry read(String json);
}
