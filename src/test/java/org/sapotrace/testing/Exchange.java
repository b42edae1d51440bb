package org.sapotrace.testing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * A request with its answer, to be held against the contract.
 *
 * @param target path and query as they were sent
 * @param contentType the media type of the request body; empty for none
 * @param headers of the answer, by their names in lower case
 */
public record Exchange(
    String method,
    String target,
    String contentType,
    byte[] body,
    int status,
    Map<String, String> headers,
    byte[] answer) {

  /** What the contract is about. */
  private static final String BASE = "/api/v1";

  private static final String PROBLEM = "application/problem+json";

  /** What is answered before it is known what was asked for. */
  private static final Set<Integer> AT_THE_DOOR = Set.of(400, 401, 403, 413, 414, 421, 429, 431);

  private static final Set<String> HEADERS = Set.of("ETag", "Location", "Link", "Retry-After");
  private static final ObjectMapper JSON = new ObjectMapper();

  /** Where the exchange departs from the contract; empty where it does not. */
  public List<String> objections() {
    if (!(path().equals(BASE) || path().startsWith(BASE + "/")) || method.equals("OPTIONS")) {
      return List.of();
    }
    Contract contract = Contract.get();
    String asked = method.equals("HEAD") ? "GET" : method;
    return contract
        .operation(asked, path())
        .map(operation -> objections(contract, operation))
        .orElseGet(() -> objectionsToUnknown(contract));
  }

  /** The path as RFC 3986, section 6.2.2, has it compared: without dots and a slash at its end. */
  private String path() {
    String path = target.split("\\?", 2)[0].replaceAll("(?i)%2e", ".");
    String plain = URI.create(path).normalize().getRawPath();
    return plain.length() > 1 && plain.endsWith("/")
        ? plain.substring(0, plain.length() - 1)
        : plain;
  }

  /** An address or a method that the contract does not know may only be refused. */
  private List<String> objectionsToUnknown(Contract contract) {
    boolean otherMethod = contract.all().stream().anyMatch(o -> o.matches(path()));
    if (!AT_THE_DOOR.contains(status) && status != 404 && !(status == 405 && otherMethod)) {
      return List.of("The contract does not know it, and it was answered " + status);
    }
    return problemIn(contract, "/components/schemas/Problem");
  }

  private List<String> objections(Contract contract, ContractOperation operation) {
    String response = operation.response(status).orElse(null);
    if (response == null) {
      return List.of("The status " + status + " is not documented for " + operation);
    }
    List<String> found = new ArrayList<>(headers(contract, response));
    found.addAll(answer(contract, response));
    if (status >= 200 && status < 300) {
      found.addAll(request(contract, operation));
    }
    return found;
  }

  private List<String> headers(Contract contract, String response) {
    List<String> found = new ArrayList<>();
    for (String name : HEADERS) {
      JsonNode documented = contract.at(response + "/headers/" + name);
      String value = headers.get(name.toLowerCase(java.util.Locale.ROOT));
      if (value != null && documented.isMissingNode()) {
        found.add("The header " + name + " is not documented");
      } else if (value == null && documented.path("required").asBoolean()) {
        found.add("The header " + name + " is missing");
      }
    }
    return found;
  }

  private List<String> answer(Contract contract, String response) {
    JsonNode content = contract.at(response + "/content");
    if (content.isMissingNode()) {
      return answer.length == 0 ? List.of() : List.of("There is a body, and none is documented");
    }
    String type = mediaType(headers.getOrDefault("content-type", ""));
    if (!content.has(type)) {
      return List.of("The media type \"" + type + "\" is not documented");
    }
    String schema = response + "/content/" + type.replace("/", "~1") + "/schema";
    if (method.equals("HEAD") || contract.at(schema).isMissingNode()) {
      return List.of();
    }
    return type.equals(PROBLEM) ? problemIn(contract, schema) : json(contract, schema, answer);
  }

  private List<String> problemIn(Contract contract, String schema) {
    if (method.equals("HEAD")) {
      return List.of();
    }
    List<String> found = new ArrayList<>();
    if (!headers.getOrDefault("content-type", "").equals(PROBLEM)) {
      found.add("A problem has the media type " + headers.get("content-type"));
    }
    found.addAll(json(contract, schema, answer));
    if (found.isEmpty() && read(answer).path("status").asInt() != status) {
      found.add("The problem tells another status than " + status);
    }
    return found;
  }

  /** What was carried out has to have been asked for as the contract says. */
  private List<String> request(Contract contract, ContractOperation operation) {
    List<String> found = new ArrayList<>();
    for (ContractOperation.Parameter parameter : operation.parameters("path")) {
      String value = operation.valueInPath(parameter.name(), path());
      found.addAll(operation.faults(parameter, decoded(value)));
    }
    found.addAll(query(operation));
    List<String> types = operation.mediaTypesTaken();
    if (!types.isEmpty()) {
      // A body that does not say what it is is taken for what is wanted.
      String type = contentType.isEmpty() ? types.get(0) : mediaType(contentType);
      String schema = operation.requestBody() + "/content/" + type.replace("/", "~1") + "/schema";
      if (!types.contains(type)) {
        found.add("The media type of the request, \"" + type + "\", is not documented");
      } else if (type.endsWith("/json")) {
        found.addAll(json(contract, schema, body));
      } else if (type.equals("application/x-ndjson")) {
        found.addAll(ImportedRows.faults(contract, body, read(answer)));
      }
    }
    return found.stream().map(fault -> "Carried out though " + fault).toList();
  }

  private List<String> query(ContractOperation operation) {
    List<String> found = new ArrayList<>();
    int start = target.indexOf('?');
    for (String pair : start < 0 ? new String[0] : target.substring(start + 1).split("&")) {
      if (!pair.isEmpty() && !pair.equals("=")) {
        String[] parts = pair.split("=", 2);
        operation.parameters("query").stream()
            .filter(parameter -> parameter.name().equals(decoded(parts[0])))
            .findFirst()
            .ifPresentOrElse(
                known ->
                    found.addAll(
                        operation.faults(known, parts.length < 2 ? "" : decoded(parts[1]))),
                () -> found.add("the parameter " + parts[0] + " is not documented"));
      }
    }
    return found;
  }

  private static List<String> json(Contract contract, String schema, byte[] text) {
    JsonNode value = read(text);
    return value == null ? List.of("There is no JSON in the body") : contract.faults(schema, value);
  }

  private static JsonNode read(byte[] text) {
    try {
      return JSON.readTree(text);
    } catch (IOException broken) {
      return null;
    }
  }

  private static String decoded(String text) {
    return URLDecoder.decode(text, StandardCharsets.UTF_8);
  }

  private static String mediaType(String contentType) {
    return contentType.split(";", 2)[0].strip();
  }

  @Override
  public String toString() {
    return "%s %s: %d".formatted(method, target, status);
  }
}
