package org.sapotrace.pages;

import jakarta.inject.Singleton;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Supplier;

/**
 * Remembers what was recorded from forms lately, so that one that is sent twice, as by a second
 * touch while the first is under way, is recorded once. Each form holds a number of its own: the
 * same readings in a new form are another result.
 *
 * <p>It does not outlive the service.
 */
@Singleton
class SentOnce {

  /** The field with the number of the form. */
  static final String NUMBER = "form";

  private static final int MOST = 200;

  private final Map<Map<String, List<String>>, UUID> recorded = new LinkedHashMap<>();

  /** What came of a form: what came of it before, or else what comes of it now. */
  synchronized UUID record(Map<String, List<String>> sent, Supplier<UUID> recording) {
    Map<String, List<String>> key = Map.copyOf(sent);
    UUID before = recorded.get(key);
    if (before != null) {
      return before;
    }
    UUID now = recording.get();
    recorded.put(key, now);
    if (recorded.size() > MOST) {
      recorded.remove(recorded.keySet().iterator().next());
    }
    return now;
  }
}
