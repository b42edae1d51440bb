package org.sapotrace.testing;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Holds the rows of an import that were recorded against the schemas of what they record. */
final class ImportedRows {

  private ImportedRows() {}

  /** What is wrong with rows that were not refused; empty where every one of them is valid. */
  static List<String> faults(Contract contract, byte[] body, JsonNode answer) {
    if (answer.path("accepted").asInt() == 0) {
      return List.of();
    }
    Set<Integer> refused = new HashSet<>();
    answer.path("refused").forEach(row -> refused.add(row.path("row").asInt()));
    int stopped = 0;
    for (JsonNode row : answer.path("refused")) {
      boolean last = row.at("/problem/type").asText().equals("/problems/stopped");
      stopped = last ? row.path("row").asInt() : stopped;
    }
    List<String> found = new ArrayList<>();
    String[] rows = new String(body, StandardCharsets.UTF_8).split("\\r?\\n", -1);
    int looked = stopped == 0 ? rows.length : stopped - 1;
    for (int i = 0; i < looked; i++) {
      if (!rows[i].isBlank() && !refused.contains(i + 1)) {
        found.addAll(faults(contract, rows[i]));
      }
    }
    return found;
  }

  private static List<String> faults(Contract contract, String row) {
    try {
      JsonNode value = new ObjectMapper().readTree(row);
      String schema = value.has("replicates") ? "NewTitration" : "NewResult";
      return contract.faults("/components/schemas/" + schema, value);
    } catch (JsonProcessingException broken) {
      return List.of("a row is no JSON: " + row);
    }
  }
}
