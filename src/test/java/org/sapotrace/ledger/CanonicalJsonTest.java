package org.sapotrace.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CanonicalJsonTest {

  /** RFC 8785, appendix B: the bits of each number, and how it is written. */
  @ParameterizedTest
  @CsvSource({
    "0000000000000000, 0",
    "8000000000000000, 0",
    "0000000000000001, 5e-324",
    "8000000000000001, -5e-324",
    "7fefffffffffffff, 1.7976931348623157e+308",
    "ffefffffffffffff, -1.7976931348623157e+308",
    "4340000000000000, 9007199254740992",
    "c340000000000000, -9007199254740992",
    "4430000000000000, 295147905179352830000",
    "44b52d02c7e14af5, 9.999999999999997e+22",
    "44b52d02c7e14af6, 1e+23",
    "44b52d02c7e14af7, 1.0000000000000001e+23",
    "444b1ae4d6e2ef4e, 999999999999999700000",
    "444b1ae4d6e2ef4f, 999999999999999900000",
    "444b1ae4d6e2ef50, 1e+21",
    "3eb0c6f7a0b5ed8c, 9.999999999999997e-7",
    "3eb0c6f7a0b5ed8d, 0.000001",
    "41b3de4355555553, 333333333.3333332",
    "41b3de4355555554, 333333333.33333325",
    "41b3de4355555555, 333333333.3333333",
    "41b3de4355555556, 333333333.3333334",
    "41b3de4355555557, 333333333.33333343",
    "becbf647612f3696, -0.0000033333333333333333",
    "43143ff3c1cb0959, 1424953923781206.2"
  })
  void writesNumbersAsTheStandardDoes(String bits, String written) {
    double number = Double.longBitsToDouble(Long.parseUnsignedLong(bits, 16));

    assertThat(CanonicalJson.of("[" + number + "]")).isEqualTo("[" + written + "]");
    assertThat(CanonicalJson.number(number)).isEqualTo(written);
  }

  /** RFC 8785, section 3.2.2 and 3.2.3. */
  @Test
  void ordersAndEscapesAsTheStandardDoes() {
    String sample =
        """
        {
          "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
          "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
          "literals": [null, true, false]
        }
        """;

    assertThat(CanonicalJson.of(sample))
        .isEqualTo(
            "{\"literals\":[null,true,false],"
                + "\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],"
                + "\"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
  }

  /** What is entered is written from trees, and what is checked by the library from text. */
  @RepeatedTest(50)
  void writesTreesAsTheLibraryWritesTheirText(RepetitionInfo repetition) {
    RandomTrees trees = new RandomTrees(repetition.getCurrentRepetition());
    for (int i = 0; i < 40; i++) {
      JsonNode tree = trees.object(4);

      assertThat(CanonicalJson.of(tree)).isEqualTo(CanonicalJson.of(tree.toString()));
    }
  }

  /** JSON of every kind, with names and texts that are hard to order and to escape. */
  private record RandomTrees(Random chance) {

    private static final String HARD =
        "abAB10\"\\/\b\t\n\f\r\u0000\u001f\u007f\u0080éß€\ufb33\ud834\udd1e";

    RandomTrees(long seed) {
      this(new Random(seed));
    }

    ObjectNode object(int depth) {
      ObjectNode object = JsonNodeFactory.instance.objectNode();
      for (int i = chance.nextInt(6); i > 0; i--) {
        object.set(text(), any(depth - 1));
      }
      return object;
    }

    private JsonNode any(int depth) {
      JsonNodeFactory nodes = JsonNodeFactory.instance;
      return switch (chance.nextInt(depth > 0 ? 9 : 7)) {
        case 0 -> nodes.nullNode();
        case 1 -> nodes.booleanNode(chance.nextBoolean());
        case 2 -> nodes.numberNode(chance.nextInt());
        case 3 -> nodes.numberNode(chance.nextGaussian() * Math.pow(10, chance.nextInt(60) - 30));
        case 4 -> nodes.numberNode(Math.round(chance.nextGaussian() * 1000) / 10.0);
        case 5 -> nodes.numberNode(chance.nextLong());
        case 6 -> nodes.textNode(text());
        case 7 -> object(depth);
        default -> {
          ArrayNode array = nodes.arrayNode();
          for (int i = chance.nextInt(4); i > 0; i--) {
            array.add(any(depth - 1));
          }
          yield array;
        }
      };
    }

    /** Whole characters only: JSON in UTF-8 cannot hold half of one. */
    private String text() {
      int[] hard = HARD.codePoints().toArray();
      StringBuilder text = new StringBuilder();
      for (int i = chance.nextInt(5); i > 0; i--) {
        text.appendCodePoint(hard[chance.nextInt(hard.length)]);
      }
      return text.toString();
    }
  }

  /** What the library does within a text is what is done to the members around it. */
  @ParameterizedTest
  @ValueSource(strings = {"plain", "\"\\/", "\b\t\n\f\r", "\u0000\u001f \u007f\u0080", "€𝄞ß", ""})
  void quotesAsTheLibraryDoes(String text) {
    String quoted = CanonicalJson.quoted(text);

    assertThat(CanonicalJson.of("[" + quoted + "]")).isEqualTo("[" + quoted + "]");
  }

  @Test
  void putsTheMembersOfEntriesAndHeadsInOrder() {
    Entry entry =
        new Entry(
            "line/harbour",
            7,
            Instant.parse("2026-03-04T09:20:00.123456Z"),
            "bench",
            "line-put",
            "harbour",
            null,
            "harbour",
            "{\"name\":\"Harbour \\\"A\\\"\"}",
            Hash.NONE,
            "");
    Head head =
        Head.behind(
            3,
            Hash.NONE,
            entry.at(),
            List.of(new Head.Reached("line/harbour", 1, 7, Hash.NONE, "harbour")));

    assertThat(CanonicalJson.of(entry.canonical())).isEqualTo(entry.canonical());
    assertThat(CanonicalJson.of(head.canonical())).isEqualTo(head.canonical());
  }

  /** The digest of "abc" from FIPS 180-2, appendix B.1. */
  @Test
  void isHashedBySha256() {
    assertThat(Hash.of("abc"))
        .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  }
}
