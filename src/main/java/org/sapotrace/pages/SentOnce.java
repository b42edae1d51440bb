package org.sapotrace.pages;

import jakarta.inject.Singleton;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;

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

  private final Map<Map<String, List<String>>, CompletableFuture<UUID>> sent =
      new LinkedHashMap<>();

  /**
   * What came of a form: what came of it before, waiting for it where it is under way, or else what
   * comes of it now. Other forms do not wait.
   */
  UUID record(Map<String, List<String>> fields, Supplier<UUID> recording) {
    Map<String, List<String>> key = Map.copyOf(fields);
    CompletableFuture<UUID> mine = new CompletableFuture<>();
    CompletableFuture<UUID> before = enter(key, mine);
    if (before != null) {
      return resultOf(before);
    }
    try {
      UUID now = recording.get();
      mine.complete(now);
      return now;
    } finally {
      if (!mine.isDone()) {
        leave(key);
        mine.completeExceptionally(new IllegalStateException("The form was refused"));
      }
    }
  }

  private static UUID resultOf(CompletableFuture<UUID> first) {
    try {
      return first.join();
    } catch (CompletionException refused) {
      throw Refusal.conflict(
          "The same form was sent twice, and refused the first time: look at that answer.");
    }
  }

  private synchronized @Nullable CompletableFuture<UUID> enter(
      Map<String, List<String>> key, CompletableFuture<UUID> mine) {
    CompletableFuture<UUID> before = sent.putIfAbsent(key, mine);
    if (sent.size() > MOST) {
      sent.remove(sent.keySet().iterator().next());
    }
    return before;
  }

  private synchronized void leave(Map<String, List<String>> key) {
    sent.remove(key);
  }
}
