package org.sapotrace.mqtt;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sapotrace.notice.Outbox;

/** Under which topics what is said. */
@ApplicationScoped
class Topics {

  private final String prefix;
  private final Pattern results;
  private final ObjectMapper json;

  Topics(MqttSettings settings, ObjectMapper json) {
    this.prefix = settings.prefix();
    this.results =
        Pattern.compile(Pattern.quote(prefix) + "/lines/([^/]*)/streams/([^/]*)/results");
    this.json = json;
  }

  /** A stream of a line, as a topic names it. */
  record Place(String line, String stream) {}

  /** Where a notice goes: under its stream, or under its lot where it is about a titrant. */
  String of(Outbox.Numbered notice) {
    return "%s/%s/notices/%s".formatted(prefix, subject(data(notice)), notice.type());
  }

  private static String subject(JsonNode data) {
    if (data.hasNonNull("line")) {
      return "lines/%s/streams/%s".formatted(data.get("line").asText(), stream(data));
    }
    return "titrants/" + (data.has("titrant") ? data.get("titrant").asText() : stream(data));
  }

  private static String stream(JsonNode data) {
    return data.get("stream").asText();
  }

  private JsonNode data(Outbox.Numbered notice) {
    try {
      return json.readTree(notice.event()).get("data");
    } catch (JsonProcessingException neverOfNotices) {
      throw new IllegalStateException(neverOfNotices);
    }
  }

  /** The filter that results come by. */
  String results() {
    return prefix + "/lines/+/streams/+/results";
  }

  /** The stream to which results under a topic are sent; null where it is not for results. */
  @Nullable Place place(String topic) {
    Matcher matcher = results.matcher(topic);
    return matcher.matches() ? new Place(matcher.group(1), matcher.group(2)) : null;
  }

  /**
   * Where is answered what became of a result.
   *
   * @param outcome the last level
   */
  String answer(Place place, String outcome) {
    return "%s/lines/%s/streams/%s/%s".formatted(prefix, place.line(), place.stream(), outcome);
  }
}
