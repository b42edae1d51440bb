package org.sapotrace.ledger;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Something that was changed, to be entered in the ledger.
 *
 * @param chain where it is entered; the caller holds it against every other writer
 * @param line the slug of the line that it belongs to; null for none
 * @param stream the slug of its stream; null for none
 * @param subject names what was changed
 * @param content what is to be proved later, as JSON is made of it
 */
public record Deed(
    String chain,
    @Nullable String line,
    @Nullable String stream,
    Act act,
    String subject,
    Object content) {

  /** In the chain of a line, whose lock the caller holds. */
  public static Deed ofLine(String line, Act act, String subject, Object content) {
    return new Deed("line/" + line, line, null, act, subject, content);
  }

  /** In the chain of something that is no stream, has a lock of its own and serves every line. */
  public static Deed ofBook(String kind, String name, Act act, Object content) {
    return new Deed(kind + "/" + name, null, null, act, name, content);
  }

  /** In the chain of a stream, whose lock the caller holds. */
  static Deed ofStream(
      UUID stream, StreamNames.Names names, Act act, String subject, Object content) {
    return new Deed(chain(stream), names.line(), names.stream(), act, subject, content);
  }

  /** The chain of a stream. */
  public static String chain(UUID stream) {
    return "stream/" + stream;
  }
}
