package org.sapotrace.bench.rest;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.SentEntries;
import org.sapotrace.http.RowReader;
import org.sapotrace.refusal.Refusal;

/** Tells a titration and a result apart, where the address does not. */
@ApplicationScoped
class EntriesInJson implements SentEntries {

  private final RowReader reader;

  EntriesInJson(RowReader reader) {
    this.reader = reader;
  }

  @Override
  public Entry read(byte[] json) {
    return reader.<NewEntry>read(json, EntriesInJson::shape).toEntry();
  }

  private static Class<? extends NewEntry> shape(JsonNode entry) {
    boolean titration = entry.has("replicates");
    if (titration == entry.has("values")) {
      throw Refusal.impossible(
          "An entry is either a titration with replicates or a result with values.");
    }
    return titration ? NewTitration.class : NewResult.class;
  }
}
