package org.sapotrace.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sapotrace.http.Scope;
import org.sapotrace.testing.Api;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.KeysProfile;

/** What the ledger says of keys, and to them. */
@QuarkusTest
@TestProfile(KeysProfile.class)
class LedgerOfKeysTest extends KeysTest {

  @Test
  void namesTheKeyWithWhichSomethingWasDone() {
    TestStream stream = TestStream.other("[]");
    KeyRing.Made instrument = key(List.of(Scope.RECORD), stream.line);
    Api.hold(instrument.text());
    stream.record(10);
    Api.hold(administrator);

    assertThat(entries("?line=" + stream.line + "&stream=watched"))
        .extracting(entry -> entry.path("actor").asText())
        .containsExactly(administrator.substring(5, 21), instrument.key().id());
  }

  @Test
  void holdsKeysWithoutTheirSecrets() {
    JsonNode made = made("{\"name\": \"a reader\", \"scopes\": [\"read\"]}");
    String id = made.path("id").asText();
    json(200, post("/keys/" + id + "/revocation", "{\"reason\": \"it was lost\"}"));

    List<JsonNode> entries =
        entries("").stream().filter(entry -> entry.path("subject").asText().equals(id)).toList();

    assertThat(entries)
        .extracting(entry -> entry.path("action").asText())
        .containsExactly("key-made", "key-revoked");
    assertThat(entries.get(0).at("/content/name").asText()).isEqualTo("a reader");
    assertThat(entries.get(1).at("/content/reason").asText()).isEqualTo("it was lost");
    KeyText secret = KeyText.parse(made.path("key").asText()).orElseThrow();
    assertThat(entries.toString())
        .doesNotContain(made.path("key").asText().substring(22))
        .doesNotContain(secret.hash());
  }

  @Test
  void isShownToAKeyAsFarAsItsLinesGo() {
    TestStream own = TestStream.soap();
    TestStream foreign = TestStream.soap();
    Api.hold(key(List.of(Scope.REVIEW), own.line).text());

    assertThat(entries(""))
        .hasSize(2)
        .allMatch(entry -> entry.path("line").asText().equals(own.line));
    json(404, get("/ledger?line=" + foreign.line));
    json(403, get("/ledger/verification"));
  }

  private static List<JsonNode> entries(String filter) {
    List<JsonNode> entries = new ArrayList<>();
    String next = "";
    do {
      String separator = filter.isEmpty() ? "?" : "&";
      JsonNode page = json(200, get("/ledger" + filter + separator + "limit=1000" + next));
      page.path("items").forEach(entries::add);
      next = page.path("next").isNull() ? "" : "&cursor=" + page.path("next").asText();
    } while (!next.isEmpty());
    return entries;
  }
}
