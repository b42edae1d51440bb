package org.sapotrace.pages;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.sapotrace.productline.Stream;

/**
 * The order in which streams are listed: as a batch goes through the plant, then what the bench
 * watches itself by. What was removed stands behind the outlet that it was removed on the way to.
 */
final class BatchOrder {

  private static final Comparator<Stream> AS_A_BATCH_GOES =
      Comparator.comparing(Stream::samplingPoint)
          .thenComparing(stream -> Objects.requireNonNullElse(stream.outlet(), stream.slug()))
          .thenComparing(Stream::isKeptRemoval)
          .thenComparing(Stream::slug);

  private BatchOrder() {}

  static List<Stream> of(List<Stream> streams) {
    return streams.stream().sorted(AS_A_BATCH_GOES).toList();
  }
}
