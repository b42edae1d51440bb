package org.sapotrace;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Enumeration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;
import org.sapotrace.testing.WashedFuel;

/** An import that the memory of the service could not hold. */
class LargeImportIT {

  private static final int ROWS = 840;

  /** In characters, each of them a byte. */
  private static final int ROW = 250_000;

  private static final Instant FIRST = Instant.parse("2020-01-01T00:00:00Z");

  @Test
  void needsNoMoreMemoryThanASmallOne(@TempDir Path directory) {
    Setup small = Setup.on(directory).withEnvironment("JDK_JAVA_OPTIONS", "-Xmx128m");
    try (RunningService service = small.start()) {
      WashedFuel.prepare(service);
      HttpResponse<String> answer =
          service.send(
              HttpRequest.newBuilder(URI.create(service.baseUrl() + WashedFuel.STREAM + "/imports"))
                  .header("Content-Type", "application/x-ndjson")
                  .POST(BodyPublishers.ofInputStream(LargeImportIT::rows))
                  .build());

      assertThat(answer.body()).isEqualTo("{\"accepted\":%d,\"refused\":[]}", ROWS);
      assertThat(service.output()).contains("-Xmx128m").doesNotContain("OutOfMemoryError");
    }
  }

  /** Made one by one, as they are sent. */
  private static InputStream rows() {
    return new SequenceInputStream(
        new Enumeration<>() {
          private int made;

          @Override
          public boolean hasMoreElements() {
            return made < ROWS;
          }

          @Override
          public InputStream nextElement() {
            return new ByteArrayInputStream(row(made++).getBytes(US_ASCII));
          }
        });
  }

  /** RFC 8259, section 2, allows any number of blanks around a value. */
  private static String row(int number) {
    String row =
        "{\"batch\": \"K-%d\", \"sampledAt\": \"%s\", \"values\": [33]"
            .formatted(number, FIRST.plusSeconds(3600L * number));
    return row + " ".repeat(ROW - row.length() - 2) + "}\n";
  }
}
