package org.sapotrace.contract;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Contract;
import org.sapotrace.testing.ContractOperation;

class ContractTest {

  private static final String PROBLEM = "application/problem+json";

  private final Contract contract = Contract.get();

  @Test
  void hasTheOperationsOfTheServiceAndNoOthers() {
    assertThat(contract.all())
        .extracting(Object::toString)
        .containsExactlyInAnyOrderElementsOf(
            Operations.declared().stream().map(o -> o.method() + " " + o.path()).toList());
  }

  @Test
  void hasTheQueryParametersOfEachOperationAndNoOthers() {
    for (Operations.Declared declared : Operations.declared()) {
      assertThat(of(declared).parameters("query"))
          .as("query of %s %s", declared.method(), declared.path())
          .extracting(ContractOperation.Parameter::name)
          .containsExactlyInAnyOrderElementsOf(declared.query());
    }
  }

  @Test
  void hasTheMediaTypesOfEachOperation() {
    for (Operations.Declared declared : Operations.declared()) {
      ContractOperation operation = of(declared);
      assertThat(operation.mediaTypesTaken())
          .as("taken by %s", operation)
          .containsExactlyInAnyOrderElementsOf(declared.taken());
      assertThat(declared.answered())
          .as("answered by %s", operation)
          .containsAll(mediaTypesOfSuccess(operation));
    }
  }

  @Test
  void saysWhatEachOperationNeeds() {
    for (Operations.Declared declared : Operations.declared()) {
      ContractOperation operation = of(declared);
      JsonNode security = operation.node().path("security");
      assertThat(security.get(0)).as("%s where nobody signs in", operation).isEmpty();
      assertThat(security.get(1).path("key"))
          .as("%s where keys are needed", operation)
          .extracting(JsonNode::asText)
          .containsExactly(declared.scope());
      assertThat(responses(operation)).containsKeys("401", "403", "429");
    }
  }

  @Test
  void saysOfEachOperationWhatItIsAndHowItFails() {
    Set<String> ids = new HashSet<>();
    for (ContractOperation operation : contract.all()) {
      assertThat(operation.id()).as("%s", operation).isNotBlank();
      assertThat(ids.add(operation.id())).as("%s is named once", operation.id()).isTrue();
      assertThat(operation.node().path("summary").asText()).as("%s", operation).endsWith(".");
      assertThat(operation.node().path("description").asText()).as("%s", operation).isNotBlank();
      assertThat(responses(operation).values())
          .as("problems of %s", operation)
          .anyMatch(response -> response.path("content").has(PROBLEM));
    }
  }

  @Test
  void namesEveryVariableOfAPathAsARequiredParameterWithAnExample() {
    for (ContractOperation operation : contract.all()) {
      Set<String> names = new HashSet<>();
      for (ContractOperation.Parameter parameter : operation.parameters("path")) {
        JsonNode node = contract.at(parameter.pointer());
        assertThat(node.path("required").asBoolean()).as("%s", parameter).isTrue();
        assertThat(operation.faults(parameter, node.path("example").asText())).isEmpty();
        names.add(parameter.name());
      }
      Set<String> variables =
          Pattern.compile("\\{(.+?)}")
              .matcher(operation.path())
              .results()
              .map(result -> result.group(1))
              .collect(Collectors.toSet());
      assertThat(names).as("%s", operation).isEqualTo(variables);
    }
  }

  @Test
  void usesEveryComponentAndRefersToNothingElse() {
    Set<String> used = new TreeSet<>();
    walk(
        contract.document(),
        (at, node) -> {
          if (node.has("$ref")) {
            used.add(node.get("$ref").asText().substring(1));
          }
          names(node.path("security").path(1))
              .forEach(scheme -> used.add("/components/securitySchemes/" + scheme));
        });
    Set<String> there = new TreeSet<>();
    contract
        .document()
        .path("components")
        .forEachEntry(
            (kind, named) ->
                names(named).forEach(name -> there.add("/components/" + kind + "/" + name)));

    assertThat(used).isEqualTo(there);
  }

  @Test
  void describesEverySchemaAndLeavesNoObjectOpen() {
    walk(
        contract.document(),
        (at, node) -> {
          if (at.matches(".*/(properties|schemas)/[^/]+") && !node.has("$ref")) {
            assertThat(node.path("description").asText()).as(at).isNotBlank();
          }
          if (node.has("properties") && !at.endsWith("/properties")) {
            assertThat(node.path("additionalProperties").isBoolean()).as(at).isTrue();
            assertThat(node.path("additionalProperties").asBoolean()).as(at).isFalse();
            Set<String> names = new HashSet<>();
            node.get("properties").fieldNames().forEachRemaining(names::add);
            node.path("required").forEach(name -> assertThat(names).as(at).contains(name.asText()));
          }
        });
  }

  @Test
  void givesOfEveryBodyAnExampleThatItsSchemaAllows() {
    walk(
        contract.document(),
        (at, node) -> {
          if (at.matches(".*/content/[^/]+") && node.has("schema")) {
            Map<String, JsonNode> examples = examples(node);
            assertThat(examples).as(at).isNotEmpty();
            examples.forEach(
                (name, example) ->
                    assertThat(contract.faults(at + "/schema", example))
                        .as("%s %s", at, name)
                        .isEmpty());
          }
        });
  }

  private ContractOperation of(Operations.Declared declared) {
    return contract.all().stream()
        .filter(o -> o.method().equals(declared.method()) && o.path().equals(declared.path()))
        .findFirst()
        .orElseThrow();
  }

  private Map<String, JsonNode> responses(ContractOperation operation) {
    Map<String, JsonNode> found = new TreeMap<>();
    operation
        .node()
        .path("responses")
        .forEachEntry((status, response) -> found.put(status, contract.resolve(response)));
    return found;
  }

  private Set<String> mediaTypesOfSuccess(ContractOperation operation) {
    return responses(operation).entrySet().stream()
        .filter(response -> response.getKey().startsWith("2"))
        .flatMap(response -> names(response.getValue().path("content")).stream())
        .collect(Collectors.toSet());
  }

  private static List<String> names(JsonNode object) {
    Iterable<String> names = object::fieldNames;
    return StreamSupport.stream(names.spliterator(), false).toList();
  }

  private Map<String, JsonNode> examples(JsonNode media) {
    Map<String, JsonNode> examples = new TreeMap<>();
    if (media.has("example")) {
      examples.put("example", media.get("example"));
    }
    for (String name : names(media.path("examples"))) {
      examples.put(name, contract.resolve(media.get("examples").get(name)).path("value"));
    }
    return examples;
  }

  /** Shows every object of the document but those in examples, which are data. */
  private static void walk(JsonNode root, BiConsumer<String, JsonNode> visitor) {
    walk("", root, visitor);
  }

  private static void walk(String at, JsonNode node, BiConsumer<String, JsonNode> visitor) {
    if (node instanceof ObjectNode object) {
      visitor.accept(at, object);
      for (String name : names(object)) {
        if (!name.equals("example") && !(name.equals("value") && at.contains("/examples/"))) {
          String step = name.replace("~", "~0").replace("/", "~1");
          walk(at + "/" + step, object.get(name), visitor);
        }
      }
    } else {
      for (int i = 0; i < node.size(); i++) {
        walk(at + "/" + i, node.get(i), visitor);
      }
    }
  }
}
