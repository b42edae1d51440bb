package org.sapotrace.testing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.BooleanNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.TextNode;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** An operation of the contract. */
public final class ContractOperation {

  /**
   * A parameter.
   *
   * @param in path, query or header
   * @param pointer where its description stands in the contract
   */
  public record Parameter(String name, String in, String pointer) {}

  private static final Pattern VARIABLE = Pattern.compile("\\{([^}]+)}");

  private final Contract contract;
  private final String path;
  private final String method;
  private final String pointer;
  private final Pattern address;
  private final List<Parameter> parameters = new ArrayList<>();

  ContractOperation(Contract contract, String path, String method) {
    this.contract = contract;
    this.path = path;
    this.method = method.toUpperCase(Locale.ROOT);
    String item = "/paths/" + path.replace("/", "~1");
    this.pointer = item + "/" + method;
    this.address = address(path);
    addParameters(item + "/parameters");
    addParameters(pointer + "/parameters");
  }

  private static Pattern address(String path) {
    StringBuilder regex = new StringBuilder();
    Matcher variables = VARIABLE.matcher(path);
    int end = 0;
    while (variables.find()) {
      regex.append(Pattern.quote(path.substring(end, variables.start()))).append("([^/]+)");
      end = variables.end();
    }
    return Pattern.compile(regex + Pattern.quote(path.substring(end)));
  }

  private void addParameters(String list) {
    for (int i = 0; i < contract.at(list).size(); i++) {
      String at = contract.follow(list + "/" + i);
      JsonNode parameter = contract.at(at);
      parameters.add(
          new Parameter(parameter.path("name").asText(), parameter.path("in").asText(), at));
    }
  }

  public String id() {
    return node().path("operationId").asText();
  }

  /** The path with its variables in braces. */
  public String path() {
    return path;
  }

  /** GET, PUT or such. */
  public String method() {
    return method;
  }

  public JsonNode node() {
    return contract.at(pointer);
  }

  /** The parameters that stand in one place: path, query or header. */
  public List<Parameter> parameters(String in) {
    return parameters.stream().filter(parameter -> parameter.in().equals(in)).toList();
  }

  boolean matches(String concrete) {
    return address.matcher(concrete).matches();
  }

  /** What stands for a variable of the path in a concrete path. */
  String valueInPath(String variable, String concrete) {
    Matcher variables = VARIABLE.matcher(path);
    Matcher values = address.matcher(concrete);
    if (values.matches()) {
      for (int group = 1; variables.find(); group++) {
        if (variables.group(1).equals(variable)) {
          return values.group(group);
        }
      }
    }
    throw new IllegalArgumentException(variable + " in " + concrete);
  }

  /** Where the response for a status is described; empty where it is not. */
  public Optional<String> response(int status) {
    String at = pointer + "/responses/" + status;
    return contract.at(at).isMissingNode() ? Optional.empty() : Optional.of(contract.follow(at));
  }

  /** Where the request body is described. */
  public String requestBody() {
    return contract.follow(pointer + "/requestBody");
  }

  /** The media types of the request body, in the order of the contract. */
  public List<String> mediaTypesTaken() {
    List<String> types = new ArrayList<>();
    contract.at(requestBody() + "/content").fieldNames().forEachRemaining(types::add);
    return types;
  }

  /** What is wrong with the value of a parameter; empty where it is valid. */
  public List<String> faults(Parameter parameter, String value) {
    String schema = parameter.pointer() + "/schema";
    return contract.faults(schema, typed(contract.at(schema).path("type").asText(), value));
  }

  private static JsonNode typed(String type, String value) {
    if (type.equals("integer") && value.matches("-?[0-9]+")) {
      return JsonNodeFactory.instance.numberNode(new BigInteger(value));
    }
    if (type.equals("boolean") && value.matches("true|false")) {
      return BooleanNode.valueOf(Boolean.parseBoolean(value));
    }
    return TextNode.valueOf(value);
  }

  @Override
  public String toString() {
    return method + " " + path;
  }
}
