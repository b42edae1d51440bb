package org.sapotrace.notice;

import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.sapotrace.testing.Receiver;

/** A subscription of a test to one line, of which no other test knows. */
final class Subscriber {

  private static final AtomicInteger COUNT = new AtomicInteger();

  final String path = "/subscriptions/subscriber-" + COUNT.incrementAndGet();
  private final String line;

  Subscriber(Receiver receiver, String line) {
    this.line = line;
    json(201, put(path, wants(receiver.url(), "")));
  }

  /** What is put, with more members of JSON behind a comma. */
  String wants(String url, String more) {
    return "{\"url\": \"%s\", \"lines\": [\"%s\"]%s}".formatted(url, line, more);
  }

  List<JsonNode> deliveries() {
    List<JsonNode> deliveries = new ArrayList<>();
    json(200, get(path + "/deliveries")).get("items").forEach(deliveries::add);
    return deliveries;
  }

  /** One after the other, what a field of the deliveries says. */
  List<String> deliveries(String field) {
    return deliveries().stream().map(each -> each.get(field).asText()).toList();
  }

  /** The types of the events, without what all begin with. */
  List<String> told() {
    TestRelay.number();
    return deliveries("type").stream().map(type -> type.replace("org.sapotrace.", "")).toList();
  }
}
