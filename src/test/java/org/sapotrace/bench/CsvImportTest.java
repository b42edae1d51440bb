package org.sapotrace.bench;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Imports.CSV;
import static org.sapotrace.testing.Imports.csv;
import static org.sapotrace.testing.Imports.ndjson;
import static org.sapotrace.testing.Imports.recorded;
import static org.sapotrace.testing.Imports.send;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.Contract;
import org.sapotrace.testing.PostgresResource;

/** Imports of CSV as RFC 4180 describes it. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class CsvImportTest {

  private static final String PLAIN = "batch,sampledAt,values.1\n";

  private TestStream stream;

  @BeforeEach
  void putAStream() {
    stream = TestStream.soap();
  }

  @Test
  void recordsWhatTheSameRowsOfJsonRecord() {
    String rows =
        """
        batch,sampledAt,source,values.1,expandedUncertainty,coverageFactor,analyst,titrant.normality,titrant.standardUncertainty,blankMl,glassware,replicates.2.sampleMl,replicates.2.sampleC,replicates.2.titrantMl,replicates.1.sampleG,replicates.1.titrantMl
        0142,2026-03-04T09:20:00Z,"Laboratory ""North"", bay 2",31.20,3.1,2,,,,,,,,,,
        K-0143,2026-03-05T09:20:00+01:00,,,,,mh,0.0100,0.0001,0.02,measuring-pipette-1ml,45.5,21.5,0.49,40.03,.47
        """;
    String same =
        """
        {"batch": "0142", "sampledAt": "2026-03-04T09:20:00Z", "source": "Laboratory \\"North\\", bay 2", "values": [31.2], "expandedUncertainty": 3.1, "coverageFactor": 2}
        {"batch": "K-0143", "sampledAt": "2026-03-05T08:20:00Z", "analyst": "mh", "titrant": {"normality": 0.01, "standardUncertainty": 0.0001}, "blankMl": 0.02, "glassware": "measuring-pipette-1ml", "replicates": [{"titrantMl": 0.47, "sampleG": 40.03}, {"titrantMl": 0.49, "sampleMl": 45.5, "sampleC": 21.5}]}
        """;
    TestStream other = TestStream.soap();
    assertThat(json(200, ndjson(other, same)).toString()).contains("\"accepted\":2");
    assertThat(json(200, csv(stream, rows)).toString()).contains("\"accepted\":2");
    TestStream singly = TestStream.soap();
    json(201, post(singly.path + "/results", same.lines().findFirst().orElseThrow()));
    json(201, post(singly.path + "/titrations", same.lines().skip(1).findFirst().orElseThrow()));

    for (int i = 0; i < 2; i++) {
      assertThat(asEntered(stream, i))
          .isEqualTo(asEntered(other, i))
          .isEqualTo(asEntered(singly, i));
    }
    assertThat(recorded(stream).at("/0/batch").asText()).isEqualTo("0142");
  }

  private static JsonNode asEntered(TestStream stream, int index) {
    String id = recorded(stream).get(index).get("id").asText();
    ObjectNode result = (ObjectNode) json(200, get("/results/" + id));
    result.remove(List.of("id", "line", "revisions"));
    return result;
  }

  @ParameterizedTest
  @ValueSource(strings = {"\n", "\r\n"})
  void takesAByteOrderMarkQuotesAndEitherEndOfRows(String end) {
    String rows =
        String.join(
            end,
            "\uFEFF\"batch\",sampledAt,\"values.1\",source",
            "A,2026-03-01T09:00:00Z,\"30.5\",\"two",
            "lines\"",
            "",
            ",,,",
            "B,2026-03-02T09:00:00Z,31,");
    JsonNode answer = json(200, csv(stream, rows));
    // A text of two lines is refused as it would be in JSON; rows count as a spreadsheet does.
    assertThat(answer.get("accepted").asInt()).isEqualTo(1);
    assertThat(answer.get("refused").findValuesAsText("row")).containsExactly("2");
    assertThat(answer.at("/refused/0/problem/errors/0/pointer").asText()).isEqualTo("#/source");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "A,2026-03-01T09:00:00Z,\"41,2\" | #/values/0 | values.1 is 41,2: write numbers with a decimal point, 41.2.",
        "A,2026-03-01T09:00:00Z,NaN | #/values/0 | no number",
        "A,2026-03-01T09:00:00Z,1e999 | #/values/0 | no number",
        "A,2026-03-01T09:00:00Z,0x1F | #/values/0 | no number",
        "A,yesterday,30 | #/sampledAt | sampledAt",
        ",2026-03-01T09:00:00Z,30 | #/batch | batch",
        "A,2026-03-01T09:00:00Z | | 2 cells",
        "A,2026-03-01T09:00:00Z,30,31 | | 4 cells",
        "A,2026-03-01T09:00:00Z,\"30 | | quotation mark",
        "A,2026-03-01T09:00:00Z,\"3\"0 | | quotation mark",
        "A,2026-03-01T09:00:00Z, | | either a titration",
        "A,2026-03-01T09:00:00Z,3 5 | #/values/0 | no number"
      })
  void refusesARowByWhatIsWrongWithIt(String row, String pointer, String words) {
    String good = "B,2026-03-02T09:00:00Z,31\n";
    JsonNode answer = json(200, csv(stream, PLAIN + good + row));
    assertThat(answer.get("accepted").asInt()).isEqualTo(1);
    assertThat(answer.at("/refused/0/row").asInt()).isEqualTo(3);
    JsonNode problem = answer.at("/refused/0/problem");
    assertThat(problem.get("detail").asText()).contains(words);
    assertThat(problem.at("/errors/0/pointer").asText(null)).isEqualTo(pointer);
  }

  @Test
  void refusesAListWithAGap() {
    JsonNode answer =
        json(200, csv(stream, "batch,sampledAt,values.1,values.2\nA,2026-03-01T09:00:00Z,,30"));
    assertThat(answer.at("/refused/0/problem/detail").asText())
        .isEqualTo("values.2 is given, and number 1 of them is not: fill them from 1 on.");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "batch,sampledAt,value | There is no column value.",
        "batch,sampledAt,values.0 | There is no column values.0.",
        "batch,sampledAt,replicates.1.id | There is no column replicates.1.id.",
        "batch,sampledAt,values.1, | There is no column without a name.",
        "batch,sampledAt,values.1,batch | named twice",
        "batch,values.1 | there is no sampledAt",
        "batch;sampledAt;values.1 | separated by semicolons",
        "A,2026-03-01T09:00:00Z,30 | There is no column A."
      })
  void refusesTheBodyForItsFirstRow(String header, String words) {
    JsonNode problem = json(400, csv(stream, header + "\nA,2026-03-01T09:00:00Z,30\n"));
    assertThat(problem.get("detail").asText()).contains(words);
    assertThat(recorded(stream)).isEmpty();
  }

  @Test
  void refusesWhatIsNotUtf8() {
    byte[] umlaut = (PLAIN + "Kön,2026-03-01T09:00:00Z,30\n").getBytes(ISO_8859_1);
    JsonNode answer = json(200, send(stream, CSV, umlaut));
    assertThat(answer.at("/refused/0/problem/detail").asText()).contains("save the file as UTF-8");
    assertThat(json(400, send(stream, CSV, PLAIN.getBytes(UTF_16))).get("detail").asText())
        .contains("save the file as UTF-8");
    json(415, send(stream, "text/csv;charset=iso-8859-1", umlaut));
  }

  @Test
  void takesNothingOfAHeaderAlone() {
    assertThat(json(200, csv(stream, PLAIN)).toString())
        .isEqualTo("{\"accepted\":0,\"refused\":[]}");
    assertThat(json(400, csv(stream, "")).get("detail").asText()).contains("names the columns");
  }

  /** The example says the same in both forms. */
  @Test
  void takesTheExample() throws IOException {
    TestStream other = TestStream.soap();
    json(200, ndjson(other, Files.readString(Path.of("docs/example/washed-fuel.ndjson"))));
    json(200, csv(stream, Files.readString(Path.of("docs/example/washed-fuel.csv"))));
    assertThat(recorded(stream)).hasSameSizeAs(recorded(other));
    assertThat(recorded(stream).findValues("result"))
        .isEqualTo(recorded(other).findValues("result"));
  }

  @Test
  void takesTheContractsExample() {
    String example =
        Contract.get()
            .document()
            .at("/paths/~1api~1v1~1lines~1{line}~1streams~1{stream}~1imports/post/requestBody")
            .at("/content/text~1csv/example")
            .asText();
    assertThat(json(200, csv(stream, example)).toString())
        .isEqualTo("{\"accepted\":2,\"refused\":[]}");
  }

  /** Every field of the contract's two shapes has a column, so that none is forgotten here. */
  @Test
  void knowsAColumnForEachField() {
    List<String> columns = new ArrayList<>();
    leaves("", Contract.get().document().at("/components/schemas/NewResult"), columns);
    leaves("", Contract.get().document().at("/components/schemas/NewTitration"), columns);
    String header = String.join(",", columns.stream().distinct().toList());
    assertThat(columns).contains("values.1", "titrant.lot", "replicates.1.freeAlkaliMl");
    assertThat(json(200, csv(stream, header + "\n")).get("accepted").asInt()).isZero();
  }

  private static void leaves(String path, JsonNode schema, List<String> columns) {
    if (schema.has("$ref")) {
      leaves(path, Contract.get().document().at(schema.get("$ref").asText().substring(1)), columns);
    } else if (schema.has("properties")) {
      for (Map.Entry<String, JsonNode> field : schema.get("properties").properties()) {
        String name = path.isEmpty() ? field.getKey() : path + "." + field.getKey();
        leaves(name, field.getValue(), columns);
      }
    } else if (schema.has("oneOf") || schema.has("anyOf")) {
      schema
          .path(schema.has("oneOf") ? "oneOf" : "anyOf")
          .forEach(one -> leaves(path, one, columns));
    } else if (schema.has("items")) {
      leaves(path + ".1", schema.get("items"), columns);
    } else if (!schema.path("type").asText().equals("null")) {
      columns.add(path);
    }
  }
}
