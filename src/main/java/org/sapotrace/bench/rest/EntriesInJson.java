package org.sapotrace.bench.rest;

import jakarta.enterprise.context.ApplicationScoped;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.SentEntries;
import org.sapotrace.http.RowReader;

/** Tells a titration and a result apart, where the address does not. */
@ApplicationScoped
class EntriesInJson implements SentEntries {

  private final RowReader reader;

  EntriesInJson(RowReader reader) {
    this.reader = reader;
  }

  @Override
  public Entry read(String json) {
    return reader.<NewEntry>read(json, EntryRows::shape).toEntry();
  }
}
