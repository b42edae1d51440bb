package org.sapotrace.pages;

import java.util.List;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Stream;

/** A line with its streams, as they are listed to choose from. */
public record ListedLine(String slug, String name, String alkali, List<ListedStream> streams) {

  /**
   * A stream to choose.
   *
   * @param path of its form
   * @param what it measures, in words
   */
  public record ListedStream(String path, String name, String what) {}

  static ListedLine of(Line line, List<Stream> streams) {
    return new ListedLine(
        line.slug(),
        line.name(),
        line.alkali().id(),
        streams.stream()
            .map(
                stream ->
                    new ListedStream(
                        Words.path(stream), stream.name(), Words.quantity(line, stream)))
            .toList());
  }
}
