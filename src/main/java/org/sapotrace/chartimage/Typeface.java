package org.sapotrace.chartimage;

import java.awt.Font;
import java.awt.FontFormatException;
import java.awt.font.FontRenderContext;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.pdfbox.pdmodel.PDDocument;

/** Liberation Sans, which lies in a dependency's jar, so that text is as wide on every machine. */
final class Typeface {

  private static final String RESOURCE =
      "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";
  private static final FontRenderContext CONTEXT = new FontRenderContext(null, true, true);
  private static final Font FONT = load();

  private Typeface() {}

  static Font size(double size) {
    return FONT.deriveFont((float) size);
  }

  /** The advance of a text, px. */
  static double width(String text, double size) {
    return size(size).getStringBounds(text, CONTEXT).getWidth();
  }

  /** Whether the typeface has every letter of a text. */
  static boolean canWrite(String text) {
    return FONT.canDisplayUpTo(text) < 0;
  }

  /** The text without what neither a picture nor an XML document can hold. */
  static String clean(String text) {
    StringBuilder clean = new StringBuilder(text.length());
    text.codePoints().map(Typeface::printable).forEach(clean::appendCodePoint);
    return clean.toString().strip();
  }

  private static int printable(int letter) {
    return switch (Character.getType(letter)) {
      case Character.CONTROL, Character.LINE_SEPARATOR, Character.PARAGRAPH_SEPARATOR -> ' ';
      case Character.SURROGATE, Character.UNASSIGNED -> 0xFFFD;
      default -> letter;
    };
  }

  private static Font load() {
    try {
      return read();
    } catch (IOException | InternalError noFontsHere) {
      withoutSystemFonts();
      try {
        return read();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private static Font read() throws IOException {
    try (InputStream in = PDDocument.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new IOException("the typeface " + RESOURCE + " is missing");
      }
      return Font.createFont(Font.TRUETYPE_FONT, in);
    } catch (FontFormatException e) {
      throw new IOException(e);
    }
  }

  /**
   * Lets Java start its font machinery on a machine without any font, which it refuses unless told
   * of a configuration, however empty.
   */
  private static void withoutSystemFonts() {
    try {
      Path configuration = Files.createTempFile("fonts", ".properties");
      configuration.toFile().deleteOnExit();
      Files.writeString(configuration, "version=1\nsequence.allfonts=default\n");
      System.setProperty("sun.awt.fontconfig", configuration.toString());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
