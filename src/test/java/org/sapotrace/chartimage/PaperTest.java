package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class PaperTest {

  private static final String LONG = "A reviewer wrote all that came to mind. ".repeat(120);
  private static final Block.Table.Column WORDS = Block.Table.Column.words("Finding", 60);
  private static final Block.Table.Column FIGURE = Block.Table.Column.number("Figure", 20);

  private static Paper paper(Block... blocks) {
    return new Paper("A review", "Harbour line, March", null, List.of(blocks));
  }

  private static PDDocument pdf(Paper paper) throws IOException {
    return Loader.loadPDF(paper.pdf(PaperSize.A4));
  }

  private static String page(PDDocument document, int number) throws IOException {
    PDFTextStripper stripper = new PDFTextStripper();
    stripper.setStartPage(number);
    stripper.setEndPage(number);
    return stripper.getText(document);
  }

  /** Nothing runs out of the page, however long the words are and however high a row. */
  @ParameterizedTest
  @EnumSource
  void leavesItsMarginsClear(PaperSize size) throws IOException {
    Block table =
        new Block.Table(
            List.of(WORDS, FIGURE), List.of(List.of("W".repeat(900), "1"), List.of(LONG, "2")));
    byte[] written =
        paper(
                new Block.Heading(1, "H".repeat(200)),
                new Block.Paragraph(LONG + "X".repeat(400)),
                new Block.Item("油".repeat(90)),
                table,
                new Block.Picture(SampleCharts.longNames()))
            .pdf(size);
    try (PDDocument document = Loader.loadPDF(written)) {
      assertThat(document.getNumberOfPages()).isGreaterThan(2);
      for (int i = 0; i < document.getNumberOfPages(); i++) {
        BufferedImage image = new PDFRenderer(document).renderImage(i);
        int right = (int) (size.textWidth() + PaperSize.LEFT) + 2;
        assertBlank(image, 0, (int) PaperSize.LEFT - 2, 0, image.getHeight());
        assertBlank(image, right, image.getWidth(), 0, image.getHeight());
        // Between the text and the rule above the foot.
        int end = (int) (size.height() - PaperSize.BOTTOM) + 3;
        assertBlank(image, 0, image.getWidth(), end, end + 9);
      }
    }
  }

  private static void assertBlank(BufferedImage image, int left, int right, int top, int bottom) {
    for (int x = left; x < right; x++) {
      for (int y = top; y < bottom; y++) {
        assertThat(image.getRGB(x, y)).as("at %d, %d", x, y).isEqualTo(Look.PAPER.getRGB());
      }
    }
  }

  @Test
  void repeatsTheTitlesOfATableOnEachPageThatItGoesOn() throws IOException {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 1; i <= 120; i++) {
      rows.add(List.of("row " + i, String.valueOf(i)));
    }
    try (PDDocument document = pdf(paper(new Block.Table(List.of(WORDS, FIGURE), rows)))) {
      assertThat(document.getNumberOfPages()).isEqualTo(3);
      StringBuilder all = new StringBuilder();
      for (int i = 1; i <= 3; i++) {
        assertThat(page(document, i)).containsOnlyOnce("Finding").contains("Page " + i + " of 3");
        all.append(page(document, i));
      }
      rows.forEach(row -> assertThat(all).containsOnlyOnce(row.get(0) + " "));
    }
  }

  @Test
  void keepsHeadingsWithWhatTheyHead() throws IOException {
    for (int lines = 25; lines < 45; lines++) {
      List<Block> blocks =
          new ArrayList<>(Collections.nCopies(lines, new Block.Paragraph("One line.")));
      blocks.add(new Block.Heading(2, "Heading"));
      blocks.add(new Block.Table(List.of(WORDS), List.of(List.of("first row"))));
      try (PDDocument document = pdf(paper(blocks.toArray(Block[]::new)))) {
        for (int i = 1; i <= document.getNumberOfPages(); i++) {
          String page = page(document, i);
          assertThat(page.contains("Heading")).isEqualTo(page.contains("first row"));
        }
      }
    }
  }

  @Test
  void leavesNoLineOfAParagraphAlone() throws IOException {
    String three = "word ".repeat(50).strip();
    for (int lines = 25; lines < 45; lines++) {
      List<Block> blocks =
          new ArrayList<>(Collections.nCopies(lines, new Block.Paragraph("One line.")));
      blocks.add(new Block.Paragraph(three));
      try (PDDocument document = pdf(paper(blocks.toArray(Block[]::new)))) {
        for (int i = 1; i <= document.getNumberOfPages(); i++) {
          assertThat(page(document, i).lines().filter(line -> line.startsWith("word")).count())
              .isNotEqualTo(1);
        }
      }
    }
  }

  @Test
  void beginsPagesWhereItIsTold() throws IOException {
    Paper paper =
        paper(
            new Block.NewPage(),
            new Block.Paragraph("first"),
            new Block.NewPage(),
            new Block.NewPage(),
            new Block.Paragraph("second"));
    try (PDDocument document = pdf(paper)) {
      assertThat(document.getNumberOfPages()).isEqualTo(2);
      assertThat(page(document, 2)).contains("second");
    }
  }

  @Test
  void hasAHashOfAllThatItTells() {
    Paper paper = paper(new Block.Paragraph("ab"), new Block.Picture(SampleCharts.beyond()));

    assertThat(paper.hash())
        .hasSize(64)
        .isEqualTo(
            paper(new Block.Paragraph("ab"), new Block.Picture(SampleCharts.beyond())).hash())
        .isNotEqualTo(paper(new Block.Paragraph("ab")).hash())
        .isNotEqualTo(
            paper(new Block.Paragraph("ab"), new Block.Picture(SampleCharts.drifting())).hash());
    assertThat(paper(new Block.Paragraph("ab"), new Block.Paragraph("c")).hash())
        .isNotEqualTo(paper(new Block.Paragraph("a"), new Block.Paragraph("bc")).hash());
    assertThat(paper.pdf(PaperSize.A4)).isEqualTo(paper.pdf(PaperSize.A4));
  }

  @Test
  void refusesRowsThatDoNotFitTheirColumns() {
    assertThatThrownBy(() -> new Block.Table(List.of(WORDS), List.of(List.of("a", "b"))))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
