package org.sapotrace.mqtt;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.SentEntries;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.http.Errands;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.RowReader;
import org.sapotrace.monitoring.Control;

/** Records results that come as messages, each once. */
@ApplicationScoped
class Intake {

  static final int LONGEST = 64 * 1024;

  private static final String WAY = "MQTT results";

  private final RowReader reader;
  private final SentEntries entries;
  private final Bench bench;
  private final Errands errands;
  private final ObjectMapper json;

  Intake(RowReader reader, SentEntries entries, Bench bench, Errands errands, ObjectMapper json) {
    this.reader = reader;
    this.entries = entries;
    this.bench = bench;
    this.errands = errands;
    this.json = json;
  }

  /**
   * What became of a message.
   *
   * @param outcome {@code recorded} or {@code refused}
   */
  record Reply(String outcome, String payload) {}

  /** What is answered to a message that was recorded. */
  record Recorded(
      String source,
      String id,
      UUID result,
      @Nullable Integer position,
      @Nullable String verdict) {}

  /** What is answered to one that was not; the event is not named where it has no name. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record Refused(@Nullable String source, @Nullable String id, Problem problem) {}

  /**
   * Records the result in a message, unless it is recorded already.
   *
   * @param retained whether the broker kept it for whoever comes later
   * @throws RuntimeException where the record is away, and the message should come again
   */
  Reply take(Topics.Place place, byte[] message, boolean retained) {
    try {
      requireFit(message, retained);
      ResultEvent event = reader.read(RowReader.text(message), tree -> ResultEvent.class);
      Entry entry = entries.read(json.writeValueAsString(event.data()));
      return new Reply(
          "recorded", errands.once(errand(place, event), () -> record(place, event, entry)));
    } catch (JsonProcessingException neverOfWhatWasRead) {
      throw new IllegalStateException(neverOfWhatWasRead);
    } catch (RuntimeException failure) {
      Problem problem = errands.problem(failure, "A result by MQTT");
      if (problem == null) {
        throw failure;
      }
      return refusal(message, problem);
    }
  }

  private static void requireFit(byte[] message, boolean retained) {
    if (message.length > LONGEST) {
      throw Problem.of(
              ProblemType.TOO_LARGE, "A message is at most %d bytes long.".formatted(LONGEST))
          .asException();
    }
    if (retained) {
      throw Problem.of(
              ProblemType.INVALID_INPUT,
              "The broker keeps this message and would bring it again and again, so nothing was done: publish it without the retain flag.")
          .asException();
    }
  }

  private Errands.Errand errand(Topics.Place place, ResultEvent event)
      throws JsonProcessingException {
    return new Errands.Errand(
        event.source(),
        WAY,
        event.id(),
        json.writeValueAsString(new Sent(place, event.data())),
        "This source and id came with another result before, so nothing was done: give each result an id of its own.");
  }

  /** What a repeat has in common with the first. */
  private record Sent(Topics.Place place, JsonNode data) {}

  private Recorded record(Topics.Place place, ResultEvent event, Entry entry) {
    Bench.PlacedResult placed = bench.record(place.line(), place.stream(), entry);
    Control control = placed.control();
    Verdict verdict = placed.result().latest().assessment().verdict();
    return new Recorded(
        event.source(),
        event.id(),
        placed.result().id(),
        control == null ? null : (Integer) control.position(),
        verdict == null ? null : verdict.outcome().id());
  }

  private Reply refusal(byte[] message, Problem problem) {
    JsonNode event = message.length > LONGEST ? json.missingNode() : tree(message);
    Refused refused = new Refused(name(event, "source"), name(event, "id"), problem);
    try {
      return new Reply("refused", json.writeValueAsString(refused));
    } catch (JsonProcessingException neverOfProblems) {
      throw new IllegalStateException(neverOfProblems);
    }
  }

  private JsonNode tree(byte[] message) {
    try {
      return json.readTree(message);
    } catch (IOException noJson) {
      return json.missingNode();
    }
  }

  private static @Nullable String name(JsonNode event, String attribute) {
    return event.path(attribute).textValue();
  }
}
