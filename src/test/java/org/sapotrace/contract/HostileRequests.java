package org.sapotrace.contract;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sapotrace.testing.Contract;
import org.sapotrace.testing.ContractOperation;
import org.sapotrace.testing.HostileInput;

/** Makes of each operation of the contract the requests that nobody should send. */
final class HostileRequests {

  /**
   * A request.
   *
   * @param body null for none
   */
  record Request(String method, String target, byte[] body, List<String> headers) {}

  private static final long SEED = 20_260_304;
  private static final int BODIES = 130;

  private static final List<String> IN_PATH =
      List.of(
          "fuzzed",
          "A",
          "-",
          ".",
          "..",
          "%2e%2e%2fq%2fopenapi",
          "a%00b",
          "%ff",
          "%c3%a9",
          "%E2%80%AE",
          "a%2Fb",
          "a;b=c",
          "a%0d%0aX:%20y",
          "'%3B--",
          "%7B%7D",
          "0",
          "-1",
          "%2B1",
          "%D9%A1",
          "99999999999999999999",
          "00000000-0000-0000-0000-000000000000",
          "00000000-0000-7000-8000-00000000000g",
          "a".repeat(64),
          "a".repeat(3_000),
          "a".repeat(5_000));

  private static final List<String> IN_QUERY =
      List.of(
          "",
          "0",
          "-1",
          "1.5",
          "%2B500",
          "%D9%A1",
          "NaN",
          "2147483648",
          "99999999999999999999",
          "maybe",
          "null",
          "a%00b",
          "%ff",
          "%E2%80%AE",
          "'%3B--",
          "..%2f..",
          "2026-03-04T09:20:00",
          "2026-02-30T09:20:00Z",
          "-999999999-01-01T00:00:00Z",
          "%2B1000000-01-01T00:00:00Z",
          "AAAA",
          "a".repeat(3_000));

  private static final List<String> HEADERS =
      List.of(
          "Accept: image/gif",
          "Accept: text/html",
          "Accept: ;;;",
          "Accept: */*;q=0",
          "Accept: application/*;q=0.1, text/plain",
          "Accept: " + "a/b, ".repeat(500) + "c/d",
          "Accept-Language: *",
          "Accept-Encoding: identity;q=0, *;q=0",
          "If-Match: \"no-such\"",
          "If-Match: *",
          "If-Match: W/\"1\"",
          "If-Match: \"",
          "If-Match: ,,,",
          "If-None-Match: *",
          "If-None-Match: W/\"1\", \"2\"",
          "If-None-Match: " + "\"a\",".repeat(500),
          "If-Modified-Since: Thu, 01 Jan 1970 00:00:00 GMT",
          "If-Unmodified-Since: nonsense",
          "Range: bytes=0-1",
          "Origin: https://plant.example",
          "Origin: null",
          "X-HTTP-Method-Override: DELETE",
          "X-Forwarded-Host: plant.example",
          "Cookie: a=" + "b".repeat(2_000),
          "X-Long: " + "a".repeat(20_000));

  private static final List<String> MEDIA_TYPES =
      List.of(
          "text/plain",
          "text/html",
          "application/xml",
          "application/octet-stream",
          "application/x-www-form-urlencoded",
          "multipart/form-data; boundary=a",
          "application/json; charset=utf-16",
          "application/json; charset=no-such",
          "application/problem+json",
          ";;;",
          "json");

  private final Contract contract = Contract.get();
  private final ContractOperation operation;
  private final Map<String, String> path;
  private final List<Request> requests = new ArrayList<>();

  private HostileRequests(ContractOperation operation, Map<String, String> known) {
    this.operation = operation;
    this.path = new LinkedHashMap<>();
    for (ContractOperation.Parameter parameter : operation.parameters("path")) {
      String example = contract.at(parameter.pointer() + "/example").asText();
      path.put(parameter.name(), known.getOrDefault(parameter.name(), example));
    }
  }

  /**
   * The requests for an operation.
   *
   * @param known what is there, by the name of the parameter that would name it
   */
  static List<Request> of(ContractOperation operation, Map<String, String> known) {
    HostileRequests hostile = new HostileRequests(operation, known);
    hostile.spoilPath();
    hostile.spoilQuery();
    hostile.spoilHeaders();
    hostile.spoilBody();
    return hostile.requests;
  }

  private void spoilPath() {
    for (String name : path.keySet()) {
      for (String value : IN_PATH) {
        Map<String, String> spoilt = new LinkedHashMap<>(path);
        spoilt.put(name, value);
        add(target(spoilt), valid(), mediaType());
      }
    }
  }

  private void spoilQuery() {
    String target = target(path);
    for (ContractOperation.Parameter parameter : operation.parameters("query")) {
      for (String value : IN_QUERY) {
        add(target + "?" + parameter.name() + "=" + value, valid(), mediaType());
      }
      add(target + "?" + parameter.name(), valid(), mediaType());
      add(target + "?" + (parameter.name() + "=1&").repeat(2), valid(), mediaType());
    }
    for (String query : List.of("surplus=1", "%00=1", "Limit=1", "=", "&&&", "a[]=1")) {
      add(target + "?" + query, valid(), mediaType());
    }
  }

  private void spoilHeaders() {
    for (String header : HEADERS) {
      add(target(path), valid(), mediaType(), header);
    }
    if (operation.method().equals("POST")) {
      add(target(path), valid(), mediaType(), "Idempotency-Key: \"1\"");
      add(target(path), valid(), mediaType(), "Idempotency-Key: ");
    }
  }

  private void spoilBody() {
    if (valid() == null) {
      return;
    }
    for (String type : MEDIA_TYPES) {
      add(target(path), valid(), type);
    }
    add(target(path), null, mediaType());
    add(target(path), valid(), null);
    List<byte[]> examples = examples();
    for (byte[] example : examples) {
      for (HostileInput.Mutation mutation :
          HostileInput.sample(json(example), SEED, BODIES / examples.size())) {
        add(target(path), mutation.body(), mediaType());
      }
    }
  }

  private void add(String target, byte[] body, String mediaType, String... headers) {
    List<String> all = new ArrayList<>(List.of(headers));
    if (mediaType != null) {
      all.add("Content-Type: " + mediaType);
    }
    requests.add(new Request(operation.method(), target, body, all));
  }

  private String target(Map<String, String> values) {
    String target = operation.path();
    for (Map.Entry<String, String> value : values.entrySet()) {
      target = target.replace("{" + value.getKey() + "}", value.getValue());
    }
    return target;
  }

  private String mediaType() {
    return operation.mediaTypesTaken().stream().findFirst().orElse(null);
  }

  /** A body that is taken; null where the operation has none. */
  private byte[] valid() {
    return mediaType() == null ? null : examples().get(0);
  }

  /** The examples of the body; of lines of JSON the first. */
  private List<byte[]> examples() {
    String media = operation.requestBody() + "/content/" + mediaType().replace("/", "~1");
    List<JsonNode> values = new ArrayList<>();
    if (contract.at(media).has("example")) {
      values.add(contract.at(media + "/example"));
    }
    contract
        .at(media + "/examples")
        .forEach(example -> values.add(contract.resolve(example).path("value")));
    return values.stream()
        .map(value -> value.isTextual() ? value.asText().split("\n")[0] : value.toString())
        .map(text -> text.getBytes(StandardCharsets.UTF_8))
        .toList();
  }

  private static JsonNode json(byte[] text) {
    try {
      return new ObjectMapper().readTree(text);
    } catch (IOException broken) {
      throw new IllegalArgumentException("An example is no JSON", broken);
    }
  }
}
