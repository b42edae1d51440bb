package org.sapotrace.review;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.Paths;
import javax.imageio.ImageIO;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;

/** Writes the pages of reviews as pictures to {@code target/review}, to be looked at. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ReviewPagesForTheEye {

  @Test
  void areWritten() throws Exception {
    write("full", new ReviewedLine().withAllThatHappens(), "");
    write("letter", new ReviewedLine().washed(), "?paper=letter");
    write("empty", new ReviewedLine(), "");
  }

  private static void write(String name, ReviewedLine line, String query) throws Exception {
    Path directory = Files.createDirectories(Paths.get("target", "review"));
    Files.write(directory.resolve(name + ".pdf"), line.review(query).asByteArray());
    try (PDDocument document = line.document(query)) {
      for (int i = 0; i < document.getNumberOfPages(); i++) {
        ImageIO.write(
            new PDFRenderer(document).renderImageWithDPI(i, 100),
            "png",
            directory.resolve("%s-%d.png".formatted(name, i + 1)).toFile());
      }
    }
  }
}
