package org.sapotrace.access.oidc;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.StreamSupport;

/** What a token claims, whether it is good or not: JSON between two dots (RFC 7515, RFC 7519). */
record Claims(JsonNode payload) {

  private static final Pattern DOT = Pattern.compile("\\.");
  private static final Pattern BLANKS = Pattern.compile("\\s+");
  private static final ObjectMapper JSON = new ObjectMapper();

  /** The claims of a token in compact form; empty where its header or they are no JSON object. */
  static Optional<Claims> of(String token) {
    String[] parts = DOT.split(token, -1);
    return parts.length == 3 && object(parts[0]).isPresent()
        ? object(parts[1]).map(Claims::new)
        : Optional.empty();
  }

  private static Optional<JsonNode> object(String encoded) {
    try {
      return Optional.of(JSON.readTree(Base64.getUrlDecoder().decode(encoded)))
          .filter(JsonNode::isObject);
    } catch (IOException | IllegalArgumentException unreadable) {
      return Optional.empty();
    }
  }

  String text(String claim) {
    return payload.path(claim).asText();
  }

  /**
   * The texts of a claim: those of an array, or of one text with blanks between them, as in {@code
   * scope} (RFC 8693, section 4.2).
   *
   * @param claim its name, or a JSON pointer to it
   */
  List<String> texts(String claim) {
    JsonNode value =
        claim.startsWith("/") ? payload.at(JsonPointer.compile(claim)) : payload.path(claim);
    if (value.isTextual()) {
      return BLANKS.splitAsStream(value.asText()).filter(text -> !text.isEmpty()).toList();
    }
    return value.isArray()
        ? StreamSupport.stream(value.spliterator(), false)
            .filter(JsonNode::isTextual)
            .map(JsonNode::asText)
            .toList()
        : List.of();
  }
}
