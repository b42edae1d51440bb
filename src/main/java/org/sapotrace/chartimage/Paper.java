package org.sapotrace.chartimage;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A document of pages for a binder.
 *
 * @param title what it is
 * @param head what stands at the head of every page
 * @param asOf when the latest of what it tells happened; null where nothing did
 * @param blocks in order
 */
public record Paper(String title, String head, @Nullable Instant asOf, List<Block> blocks) {

  public Paper {
    blocks = List.copyOf(blocks);
  }

  /**
   * The SHA-256 of all that it tells, in hexadecimal digits. It stands on every page: two prints
   * with the same one were made from the same data, whatever the size of their paper.
   */
  public String hash() {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      Stream.concat(Stream.of(title, head), blocks.stream().flatMap(Block::told))
          .forEach(
              piece -> {
                digest.update(piece.getBytes(StandardCharsets.UTF_8));
                // Between pieces stands what no UTF-8 has, so that none runs into the next.
                digest.update((byte) 0xFF);
              });
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }

  /** The document as PDF; the same one is the same, byte for byte. */
  public byte[] pdf(PaperSize size) {
    return PaperDocument.of(this, size);
  }
}
