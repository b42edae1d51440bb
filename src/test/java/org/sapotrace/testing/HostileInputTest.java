package org.sapotrace.testing;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

class HostileInputTest {

  private static final String VALID = "{\"a\":1,\"b\":[{\"c\":\"x\"}]}";

  @Test
  void makesTheSameOfTheSameSeedAndAnotherOrderOfAnother() throws IOException {
    assertThat(descriptions(1)).isEqualTo(descriptions(1)).isNotEqualTo(descriptions(2));
  }

  @Test
  void describesWhatItDid() throws IOException {
    assertThat(body("/b/0/c replaced by \"\\ud800\""))
        .isEqualTo("{\"a\":1,\"b\":[{\"c\":\"\\ud800\"}]}");
    assertThat(body("/a replaced by 1e999")).isEqualTo("{\"a\":1e999,\"b\":[{\"c\":\"x\"}]}");
    assertThat(body("/b/0 replaced by the same with c twice"))
        .isEqualTo("{\"a\":1,\"b\":[{\"c\":\"x\",\"c\":\"x\"}]}");
    assertThat(body("the body replaced by the same without a"))
        .isEqualTo("{\"b\":[{\"c\":\"x\"}]}");
    assertThat(body("/b replaced by []")).isEqualTo("{\"a\":1,\"b\":[]}");
    assertThat(body("/b replaced by its first entry 10,000 times")).hasSizeGreaterThan(90_000);
  }

  @Test
  void drawsNoMoreThanAreWanted() throws IOException {
    JsonNode valid = new ObjectMapper().readTree(VALID);

    assertThat(HostileInput.sample(valid, 1, 7)).hasSize(7);
  }

  private static List<String> descriptions(long seed) throws IOException {
    return HostileInput.of(new ObjectMapper().readTree(VALID), seed).stream()
        .map(HostileInput.Mutation::description)
        .toList();
  }

  private static String body(String description) throws IOException {
    return HostileInput.of(new ObjectMapper().readTree(VALID), 1).stream()
        .filter(mutation -> mutation.description().equals(description))
        .map(mutation -> new String(mutation.body(), StandardCharsets.UTF_8))
        .findFirst()
        .orElseThrow();
  }
}
