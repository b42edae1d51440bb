package org.sapotrace.testing;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SchemaRegistryConfig;
import com.networknt.schema.dialect.Dialect;
import com.networknt.schema.dialect.Dialects;
import com.networknt.schema.keyword.NonValidationKeyword;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/** The contract in {@code openapi/}, read once, and its schemas, each compiled once. */
public final class Contract {

  private static final String IRI = "https://sapotrace.example/contract";
  private static final Set<String> METHODS = Set.of("get", "put", "post", "delete", "patch");

  /** What OpenAPI adds around and in schemas says nothing about what is valid. */
  private static final Dialect DIALECT =
      Dialect.builder(Dialects.getDraft202012())
          .unknownKeywordFactory((keyword, context) -> new NonValidationKeyword(keyword))
          .build();

  private static final Contract ONLY = new Contract(Path.of("openapi", "sapotrace.yaml"));

  private final JsonNode document;
  private final List<ContractOperation> operations;
  private final SchemaRegistry registry;
  private final Map<String, Schema> schemas = new ConcurrentHashMap<>();

  private Contract(Path file) {
    document = yaml(read(file));
    operations = operations();
    SchemaRegistryConfig config =
        SchemaRegistryConfig.builder().formatAssertionsEnabled(true).locale(Locale.ROOT).build();
    registry =
        SchemaRegistry.withDefaultDialect(
            DIALECT,
            registry ->
                registry.schemaRegistryConfig(config).schemas(Map.of(IRI, document.toString())));
  }

  /** The one contract. */
  public static Contract get() {
    return ONLY;
  }

  /** The tree that a text in YAML or JSON stands for. */
  public static JsonNode yaml(String text) {
    try {
      return new ObjectMapper(new YAMLFactory()).readTree(text);
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  public JsonNode document() {
    return document;
  }

  /** Every operation, in the order of the contract. */
  public List<ContractOperation> all() {
    return operations;
  }

  /** The operation of that identifier. */
  public ContractOperation operation(String id) {
    return operations.stream().filter(o -> o.id().equals(id)).findFirst().orElseThrow();
  }

  /** The operation that a request asks for; its path still percent-encoded, without a query. */
  public Optional<ContractOperation> operation(String method, String path) {
    return operations.stream()
        .filter(o -> o.method().equals(method) && o.matches(path))
        .findFirst();
  }

  /** The node at a JSON pointer, or what that node refers to. */
  public JsonNode at(String pointer) {
    return resolve(document.at(JsonPointer.compile(pointer)));
  }

  /** The node that a {@code $ref} names; any other node as it is. */
  public JsonNode resolve(JsonNode node) {
    return node.has("$ref") ? at(node.get("$ref").asText().substring(1)) : node;
  }

  /**
   * The pointer to which a {@code $ref} at a pointer leads; the pointer itself where it is none.
   */
  public String follow(String pointer) {
    JsonNode node = document.at(JsonPointer.compile(pointer));
    return node.has("$ref") ? follow(node.get("$ref").asText().substring(1)) : pointer;
  }

  /** What is wrong with a value by the schema at a pointer; empty where it is valid. */
  public List<String> faults(String schemaPointer, JsonNode value) {
    Schema schema = schemas.computeIfAbsent(follow(schemaPointer), this::compile);
    return schema.validate(value).stream().map(Object::toString).toList();
  }

  private Schema compile(String pointer) {
    return registry.getSchema(SchemaLocation.of(IRI + "#" + pointer));
  }

  private List<ContractOperation> operations() {
    List<ContractOperation> found = new ArrayList<>();
    document
        .path("paths")
        .forEachEntry(
            (path, item) ->
                item.forEachEntry(
                    (name, operation) -> {
                      if (METHODS.contains(name)) {
                        found.add(new ContractOperation(this, path, name));
                      }
                    }));
    return List.copyOf(found);
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException missing) {
      throw new UncheckedIOException(missing);
    }
  }
}
