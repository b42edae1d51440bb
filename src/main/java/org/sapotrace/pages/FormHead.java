package org.sapotrace.pages;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Stream;

/**
 * What stands around the fields of a form.
 *
 * @param action where it is sent
 * @param token by which it is known as ours
 * @param number by which it is known when it is sent twice
 * @param notes what to know before typing
 * @param correction what is corrected; null for a new result
 */
public record FormHead(
    String action,
    String line,
    String stream,
    String quantity,
    String token,
    String number,
    List<String> notes,
    @Nullable Corrected correction) {

  /**
   * A result that is corrected.
   *
   * @param path of its page
   * @param batch it was recorded for
   * @param revision that is corrected
   */
  public record Corrected(String path, String batch, int revision) {}

  static FormHead of(Line line, Stream stream, String token, String number, List<String> notes) {
    return new FormHead(
        Words.path(stream),
        line.name(),
        stream.name(),
        Words.quantity(line, stream),
        token,
        number,
        notes,
        null);
  }

  FormHead correcting(UUID id, String batch, int revision) {
    String path = "/results/" + id;
    return new FormHead(
        path + "/correction",
        line,
        stream,
        quantity,
        token,
        number,
        notes,
        new Corrected(path, batch, revision));
  }
}
